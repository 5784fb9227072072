import type { Overview } from '#shared/contract/index.ts';
import { tuningSheet } from '#shared/exchange/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import type { TuningHere } from '../../stores/strings.ts';
import { chordText } from '../../ui/note-names.ts';
import { amountWords, courseText, figure } from '../../ui/words.ts';
import styles from './sheet-page.module.css';

type Props = { readonly tuning: Tuning; readonly to: TuningHere; readonly overview: Overview; readonly referenceHertz: number };

const moveWords = (semitones: number): string =>
  semitones === 0 ? 'stays' : `${semitones < 0 ? 'down' : 'up'} ${amountWords(semitones * 100)}`;

/** The sheet of a tuning: a line a course, from the player's eye down. */
export function TuningPaper({ tuning, to, overview: { instrument, stringSet }, referenceHertz }: Props) {
  const offsets = tuning.courses.map(({ offsetCents }) => offsetCents);
  const { stringing, lines } = tuningSheet(homePitches(stringSet), to.pitches, to.hertz, offsets);
  const chord = chordText(to.pitches.flat());
  const hasOffsets = lines.some(({ offsetCents }) => offsetCents !== 0);
  return (
    <>
      <h1>{tuning.name}</h1>
      <p className={styles['about']}>
        {[
          `${instrument.name}, ${instrument.kind}`,
          ...(chord === null ? [] : [chord]),
          stringing,
          `A4 at ${figure(referenceHertz, Number.isInteger(referenceHertz) ? 0 : 1)} Hz`,
        ].join(', ')}
      </p>
      <table className={styles['table']}>
        <thead>
          <tr>
            <th scope="col">Course</th>
            <th scope="col">At home</th>
            <th scope="col">Pitch</th>
            <th scope="col">From home</th>
            {hasOffsets ? <th scope="col">Cents</th> : null}
            <th scope="col">Hz</th>
          </tr>
        </thead>
        <tbody>
          {lines.map(({ number, home, pitches, semitones, offsetCents, hertz }) => (
            <tr key={number}>
              <td>{number}</td>
              <td>{courseText(home)}</td>
              <td>{semitones !== 0 ? <strong>{courseText(pitches)}</strong> : courseText(pitches)}</td>
              <td>{moveWords(semitones)}</td>
              {hasOffsets ? (
                <td>{offsetCents === 0 ? '' : `${figure(Math.abs(offsetCents), 1)} ${offsetCents < 0 ? 'below' : 'above'}`}</td>
              ) : null}
              <td>{hertz.map((pitch) => figure(pitch, 1)).join(' · ')}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <div className={styles['notes']}>
        <p className="small">Course 1 is the one nearest the floor.</p>
        {tuning.notes === '' ? null : <p>{tuning.notes}</p>}
      </div>
    </>
  );
}
