import type { Overview, Settings } from '#shared/contract/index.ts';
import { courseNumber, homePitches, stringing } from '#shared/instruments/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useNow } from '../../stores/clock.ts';
import { pullAt, usualPull } from '../../stores/pull.ts';
import type { TuningHere } from '../../stores/strings.ts';
import { Button } from '../../ui/button.tsx';
import { PullBoard } from '../../ui/pull-board.tsx';
import { when } from '../../ui/time.ts';
import { figure, courseText } from '../../ui/words.ts';
import { writtenPitch } from '#shared/music/index.ts';
import { bothMargins } from '../margins.ts';
import { OtherStrings } from './other-strings.tsx';
import { togetherOf, totalWords } from './gauge-effect.ts';
import { stringWords } from './string-words.ts';
import { Takes } from './takes.tsx';
import styles from './instruments.module.css';

type Props = {
  readonly overview: Overview;
  readonly tuning: TuningHere;
  readonly tunings: readonly Tuning[];
  readonly settings: Settings;
  readonly onEdit: () => void;
  readonly onRemove: () => void;
};

/** An instrument's row, opened: pull and margins in the tuning that it is in, what it measures and what is fitted. */
export function OpenInstrument({ overview, tuning, tunings, settings, onEdit, onRemove }: Props) {
  const { name } = overview.instrument;
  return (
    <div className={styles['open']}>
      <Pulls overview={overview} tuning={tuning} />
      <Facts overview={overview} tuning={tuning} tunings={tunings} settings={settings} />
      <div className={styles['buttons']}>
        <Button onPress={onEdit}>Change {name}</Button>
        <Button look="plain" onPress={onRemove}>
          Remove {name}
        </Button>
      </div>
    </div>
  );
}

function Pulls({ overview, tuning }: Pick<Props, 'overview' | 'tuning'>) {
  const { courses } = overview.stringSet;
  const strings = courses.flatMap(({ strings: fitted }, course) =>
    fitted.map((facts, string) => ({ facts, course, string, pull: pullAt(overview, course, string, tuning.hertz[course]?.[string]) })),
  );
  const total = togetherOf(strings.map(({ pull }) => pull.newtons));
  return (
    <PullBoard
      title={`Pull of each string in ${tuning.name}`}
      together={total === null ? '' : `${figure(total)} N together`}
      usual={usualPull(overview.instrument)}
      lines={strings.map(({ facts, course, string, pull }) => ({
        id: `${course} ${string}`,
        number: courseNumber(course, courses.length),
        head: (
          <>
            {writtenPitch(tuning.pitches[course]?.[string] ?? '')} <span className="small quiet">{stringWords(facts)}</span>
          </>
        ),
        now: pull.newtons,
        later: null,
        kind: 'within',
        gauge: facts.diameterMillimetres ?? 0.7,
        tail: (
          <>
            {pull.newtons === null ? 'not known' : `${figure(pull.newtons, 1)} N`} <span className="small quiet">{bothMargins(pull)}</span>
          </>
        ),
      }))}
    />
  );
}

function Facts({ overview, tuning, tunings, settings }: Pick<Props, 'overview' | 'tuning' | 'tunings' | 'settings'>) {
  const { instrument, stringSet } = overview;
  const now = useNow();
  const home = homePitches(stringSet);
  const pulls = tuning.hertz.flatMap((strings, course) => strings.map((pitch, string) => pullAt(overview, course, string, pitch).newtons));
  const total = togetherOf(pulls);
  return (
    <dl className={styles['facts']}>
      {total === null ? null : (
        <>
          <dt>Pull of the strings</dt>
          <dd>{totalWords(total, pulls.length, instrument)}</dd>
        </>
      )}
      <dt>Measures</dt>
      <dd>
        {instrument.kind}, scale length {figure(instrument.scaleLengthMillimetres)} mm, {instrument.frets} frets
      </dd>
      <dt>Strings</dt>
      <dd>
        {stringSet.name}, fitted {when(stringSet.fittedAt, now)}
      </dd>
      <OtherStrings overview={overview} />
      <Takes overview={overview} tunings={tunings} settings={settings} />
      <dt>At home in</dt>
      <dd>
        {home.map(courseText).join('  ')}, {stringing(home)}
      </dd>
      <dt>Played</dt>
      <dd>
        {instrument.leftHanded ? 'left-handed' : 'right-handed'},{' '}
        {instrument.upsideDown ? 'strung upside down' : 'course 1 nearest the floor'}
      </dd>
    </dl>
  );
}
