import { useEffect, useRef } from 'react';
import { aloud, hushVoice, sayAloud } from '../../stores/aloud.ts';
import { retuning } from '../../stores/retuning.ts';
import { session } from '../../stores/session.ts';
import { announce, restMilliseconds, type Said, sceneOf } from './announce.ts';
import { spoken } from './sentences.ts';
import { troubleOf } from './trouble.ts';

/** Says what changes, to a screen reader and, where the player wants it, aloud: one sentence at a time, never running numbers. React is not asked. */
export function Announcer() {
  const region = useRef<HTMLOutputElement>(null);
  useEffect(() => {
    let said: Said | null = null;
    let later: ReturnType<typeof setTimeout> | undefined;
    const look = (): void => {
      const { now } = retuning.getState();
      const at = performance.now();
      // What changes meanwhile is looked at when the rest is over, even in silence.
      if (now === null || now.finishedAt !== null || (said !== null && at - said.atMilliseconds < restMilliseconds)) return;
      const heard = announce(said, sceneOf(now, troubleOf(session.getState().snapshot)?.sentence ?? null), at);
      said = heard.said;
      if (heard.sentence === null || region.current === null) return;
      const sentence = spoken(heard.sentence);
      region.current.textContent = sentence;
      sayAloud(sentence);
      clearTimeout(later);
      later = setTimeout(look, restMilliseconds + 20);
    };
    look();
    const leave = [retuning.subscribe(look), session.subscribe(look), aloud.subscribe(look)];
    return () => {
      for (const off of leave) off();
      clearTimeout(later);
      hushVoice();
    };
  }, []);
  return <output ref={region} aria-live="polite" className="unseen" />;
}
