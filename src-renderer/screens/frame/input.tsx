import { Meter } from 'react-aria-components';
import { useStore } from 'zustand';
import { session } from '../../stores/session.ts';
import styles from './input.module.css';

/** The quietest and loudest that the bar shows, in dB of full scale. */
const quietest = -72;
const loudest = 0;

/** The input: which device, how loud it is, and whether a string is heard. */
export function Input() {
  const label = useStore(session, ({ snapshot }) => snapshot?.input?.label ?? null);
  const state = useStore(session, ({ snapshot }) => snapshot?.state ?? null);
  const hearing = useStore(session, (now) => now.hearing);
  const level = useStore(session, ({ levelDecibels }) =>
    levelDecibels === null ? 0 : Math.round(((levelDecibels - quietest) / (loudest - quietest)) * 96),
  );
  const words =
    state === null ? hearing : state.kind === 'open' ? hearing : state.kind === 'asking' ? 'asking for the microphone' : 'no sound';
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
