import { Link } from '@tanstack/react-router';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { count } from '../../ui/words.ts';
import { marginWords } from '../margins.ts';
import { beyondWords, takenBy } from './taken.ts';
import styles from './instruments.module.css';

type Props = { readonly overview: Overview; readonly tunings: readonly Tuning[]; readonly settings: Settings };

/** So many are named; the others are a step away, in Tunings. */
const named = 6;

/** What an instrument can take: the tunings of the library within its strings' limits, and those beyond. */
export function Takes({ overview, tunings, settings }: Props) {
  const { within, beyond, otherCourses } = takenBy(overview, tunings, settings);
  if (tunings.length === 0) return null;
  const { id } = overview.instrument;
  return (
    <>
      <dt>Can take</dt>
      <dd>
        <ul className={styles['takes']}>
          {within.slice(0, named).map((one) => (
            <li key={one.id}>
              <Link to="/tunings" search={{ on: id, open: one.id }}>
                {one.name}
              </Link>
              {one.margin === null ? null : <span className="small quiet"> {marginWords(one.margin)}</span>}
            </li>
          ))}
        </ul>
        {within.length === 0 ? <p className="quiet">none of the library’s tunings</p> : null}
        {within.length <= named ? null : (
          <p>
            <Link to="/tunings" search={{ on: id }}>
              and {count(within.length - named, 'other')} in Tunings
            </Link>
          </p>
        )}
      </dd>
      {beyond.length === 0 ? null : (
        <>
          <dt>Not on these strings</dt>
          <dd>
            {beyond.slice(0, named).map(beyondWords).join(', ')}
            {beyond.length <= named ? '' : ` and ${count(beyond.length - named, 'other')}`}
          </dd>
        </>
      )}
      {otherCourses === 0 ? null : (
        <>
          <dt>For other courses</dt>
          <dd>{count(otherCourses, 'tuning')}</dd>
        </>
      )}
    </>
  );
}
