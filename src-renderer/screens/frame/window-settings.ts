import { useEffect } from 'react';
import { followSpeech } from '../../stores/aloud.ts';
import { useLibrary } from '../../stores/library.ts';
import { setNoteLanguage, useNoteLanguageIsKnown } from '../../ui/note-names.ts';

/** Carries what the player set into the whole window: light or dark, how notes are named, whether steps are spoken. False until that is known. */
export function useWindowSettings(): boolean {
  const { data: settings } = useLibrary('settings.read', {});
  useEffect(() => {
    if (settings === undefined) return;
    const { theme, noteLanguage, speaks } = settings;
    if (theme === 'system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = theme;
    setNoteLanguage(noteLanguage);
    followSpeech(speaks);
  }, [settings]);
  return useNoteLanguageIsKnown();
}
