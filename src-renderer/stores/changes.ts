import type { Input, Overview } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useHost } from './host.tsx';
import { useChange } from './library.ts';
import { noteDone } from './undo.ts';

/** Writes a tuning, new (`before` null) or changed, so that it can be taken back. */
export function useSaveTuning() {
  const host = useHost();
  const save = useChange('tunings.save');
  return {
    error: save.error,
    isPending: save.isPending,
    save: (tuning: Tuning, before: Tuning | null, onSaved: () => void = () => undefined): void =>
      save.mutate(tuning, {
        onSuccess: () => {
          if (before === null) noteDone(`Added ${tuning.name}`, () => host.ask('tunings.remove', { id: tuning.id }));
          else noteDone(`Changed ${before.name}`, () => host.ask('tunings.save', before));
          onSaved();
        },
      }),
  };
}

/** Writes an instrument with the strings fitted to it, so that it can be taken back. `words` says what was done: `Changed Wren`. */
export function useSaveInstrument() {
  const host = useHost();
  const save = useChange('instruments.save');
  return {
    error: save.error,
    isPending: save.isPending,
    save: (entry: Input<'instruments.save'>, before: Overview | null, words: string, onSaved: () => void = () => undefined): void =>
      save.mutate(entry, {
        onSuccess: () => {
          noteDone(words, () =>
            before === null
              ? host.ask('instruments.remove', { id: entry.instrument.id })
              : host.ask('instruments.save', { instrument: before.instrument, stringSet: before.stringSet }),
          );
          onSaved();
        },
      }),
  };
}

/** Notes that several tunings were added at once, so that they are taken back at once. */
export function useNoteAdded() {
  const host = useHost();
  return (tunings: readonly Tuning[], words: string): void =>
    noteDone(words, async () => {
      for (const { id } of tunings) await host.ask('tunings.remove', { id });
    });
}
