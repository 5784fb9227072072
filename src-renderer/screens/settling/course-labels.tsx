import { shareAlong } from '../../charts/axis.ts';
import type { CoursePicture } from '../../charts/picture.ts';
import type { Slip } from '#shared/settling/index.ts';
import { useSize } from '../../ui/size.ts';
import { figure } from '../../ui/words.ts';
import { centsLabels, type Label, slipLabels, turnLabels } from './labels.ts';
import { at } from './words.ts';
import styles from './course-labels.module.css';

type Props = {
  readonly picture: CoursePicture;
  readonly slips: readonly Slip[];
  /** The moment that the axis counts from, in seconds of the epoch. */
  readonly start: number;
  readonly nowWords: string | null;
};

/** Now nearer to the saddle than this share of the board is named on its other side, where it is named on the board. */
const roomForNow = 0.85;

/** The words on and beside a course's board. The chart's summary says the same to those who do not see it. */
export function CourseLabels({ picture, slips, start, nowWords }: Props) {
  const [place, { width, height }] = useSize<HTMLDivElement>();
  const nowShare = shareAlong(picture.axis, picture.now);
  const onAxis = slips.map(({ atSeconds, cents }) => ({ seconds: atSeconds - start, cents }));
  return (
    <div ref={place} className={`small ${styles['labels']}`} aria-hidden="true">
      {width === 0 ? null : (
        <>
          {centsLabels(picture, height).map(({ cents, share }) => (
            <span key={cents} className={styles['cents']} style={{ top: `${share * 100}%` }}>
              {cents > 0 ? '+' : ''}
              {figure(cents)}
            </span>
          ))}
          <Words labels={slipLabels(onAxis, picture.axis, width)} className={styles['slip'] ?? ''} />
          <Words
            labels={turnLabels(picture, (seconds) => at(seconds + start, start + picture.now), width)}
            className={styles['turn'] ?? ''}
          />
          {nowWords === null ? null : (
            <span className={styles['now']} data-side={nowShare > roomForNow ? 'before' : 'after'} style={{ left: `${nowShare * 100}%` }}>
              {nowWords}
            </span>
          )}
        </>
      )}
    </div>
  );
}

const Words = ({ labels, className }: { readonly labels: readonly Label[]; readonly className: string }) =>
  labels.map(({ key, words, share, side }) => (
    <span key={key} className={className} data-side={side} style={{ left: `${share * 100}%` }}>
      {words}
    </span>
  ));
