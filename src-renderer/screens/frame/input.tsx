import { Meter } from 'react-aria-components';
import { useStore } from 'zustand';
import { session, type SoundStateKind } from '../../stores/session.ts';
import styles from './input.module.css';

/** The quietest and loudest that the bar shows, in dB of full scale. */
const quietest = -72;
const loudest = 0;

const hearingWords = { hearing: 'hearing you', quiet: 'quiet', 'too-quiet': 'too quiet', 'too-loud': 'too loud' } as const;

/** The states in which nothing can be heard, in a word or two; their sentence stands where the player looks. */
const stateWords: Partial<Record<SoundStateKind, string>> = {
  closed: 'not listening',
  asking: 'asking',
  denied: 'no microphone',
  blocked: 'no microphone',
  'no-device': 'no microphone',
  busy: 'microphone busy',
  lost: 'microphone gone',
  asleep: 'asleep',
  muted: 'muted',
  silent: 'no sound at all',
  ended: 'ended',
  failed: 'not working',
};

/** The input: which device, how loud it is, and whether a string is heard. */
export function Input() {
  const label = useStore(session, ({ snapshot }) => snapshot?.input?.label ?? null);
  const state = useStore(session, ({ snapshot }) => snapshot?.state ?? null);
  const hearing = useStore(session, ({ snapshot }) => snapshot?.hearing ?? null);
  const level = useStore(session, ({ levelDecibels }) =>
    levelDecibels === null ? 0 : Math.round(((levelDecibels - quietest) / (loudest - quietest)) * 96),
  );
  const words = state === null ? 'not listening' : (stateWords[state.kind] ?? hearingWords[hearing ?? 'quiet']);
  return (
    <div className={styles['input']}>
      {label === null ? null : <span className={`small quiet ${styles['label']}`}>{label.replace(/ \([0-9a-f:]+\)$/u, '')}</span>}
      <Meter aria-label="Input level" minValue={0} maxValue={96} value={Math.max(0, level)} className={styles['bar'] ?? ''}>
        <span className={styles['level']} style={{ width: Math.max(4, level) }} data-idle={state === null} />
      </Meter>
      <span className={styles['words']}>{words}</span>
    </div>
  );
}
