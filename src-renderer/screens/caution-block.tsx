import type { TuningJudgement } from '../stores/judging.ts';
import { cautionLines, loadWords } from './judged.ts';
import styles from './caution-block.module.css';

type Props = { readonly judged: TuningJudgement; readonly courses: number };

/** What has to be said before a peg is touched: the cautions on single courses first, then those that always hold. */
export function CautionBlock({ judged, courses }: Props) {
  const lines = cautionLines(judged, courses);
  const load = loadWords(judged);
  return (
    <section className={styles['block']} aria-label="Before you turn a peg">
      <p className={`small quiet ${styles['head']}`}>Before you turn a peg</p>
      <ul className={styles['lines']}>
        {lines.map(({ who, sentence }) => (
          <li key={sentence} className={who === null ? 'small quiet' : ''}>
            {who === null ? null : <strong>{who}: </strong>}
            {sentence}
          </li>
        ))}
      </ul>
      <p className={`small quiet ${styles['tail']}`}>{load === '' ? '' : `All strings: ${load}`}</p>
    </section>
  );
}
