import type { Slipping } from './slipping.ts';
import styles from './slip-mark.module.css';

const height = 16;

/** The quiet mark of an instrument with a slipping string, as slips are drawn on the charts: a dashed upright. Fainter once it was seen. */
export const SlipMark = ({ slipping }: { readonly slipping: Slipping | null }) =>
  slipping === null ? null : (
    <>
      <svg className={styles['mark']} data-seen={slipping.isSeen} width={4} height={height} aria-hidden="true">
        <title>{slipping.words}</title>
        <line x1={2} x2={2} y1={1} y2={height} />
      </svg>
      <span className="unseen">({slipping.words})</span>
    </>
  );
