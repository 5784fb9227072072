import type { Overview } from '#shared/contract/index.ts';
import { byEarSheet } from '#shared/exchange/index.ts';
import { writtenPitch } from '#shared/music/index.ts';
import type { OpenPitches, Tuning } from '#shared/tunings/index.ts';
import type { TuningHere } from '../../stores/strings.ts';
import { courseText, pitchText } from '../../ui/words.ts';
import styles from './sheet-page.module.css';

type Props = { readonly tuning: Tuning; readonly to: TuningHere; readonly overview: Overview; readonly from: OpenPitches };

/** How a pupil gets from one tuning to another without a tuner, a sentence a course. */
export function ByEarPaper({ tuning, to, overview: { instrument }, from }: Props) {
  const steps = byEarSheet(from, to.pitches, instrument.frets);
  const hasOffsets = tuning.courses.some(({ offsetCents }) => offsetCents !== 0);
  return (
    <>
      <h1>{tuning.name}, by ear</h1>
      <p className={styles['about']}>
        From {from.map(courseText).join('  ')} to {to.pitches.map(courseText).join('  ')}, on {instrument.name}, {instrument.kind}.
      </p>
      {steps.length === 0 ? (
        <p className="lead">Nothing has to be turned.</p>
      ) : (
        <ol className={styles['steps']}>
          {steps.map(({ course, to: pitch, sentence }) => (
            <li key={course}>{sentence.replace(writtenPitch(pitch), pitchText(pitch))}</li>
          ))}
        </ol>
      )}
      <div className={styles['notes']}>
        <p className="small">
          Course 1 is the one nearest the floor. Pluck both strings, turn slowly, and stop where the beating between them has died away.
        </p>
        {steps.length === 0 ? null : (
          <p className="small">Go over it once more: a string that was moved pulls on the others. Stop where a string creaks.</p>
        )}
        {hasOffsets ? <p className="small">This tuning has offsets in cents; they are left out here.</p> : null}
      </div>
    </>
  );
}
