import { useState } from 'react';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { courseNumber, homePitches, stringing } from '#shared/instruments/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useNow } from '../../stores/clock.ts';
import { judgeTuning } from '../../stores/judging.ts';
import { pullAt } from '../../stores/pull.ts';
import { type State, type TuningHere, tuningOn } from '../../stores/strings.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { when } from '../../ui/time.ts';
import { courseText, figure, listed } from '../../ui/words.ts';
import { CautionBlock } from '../caution-block.tsx';
import { JudgedPulls } from '../judged-pulls.tsx';
import { togetherOf } from '../judged.ts';
import { OtherStrings } from './other-strings.tsx';
import { totalWords } from './gauge-effect.ts';
import { hardwareWords } from './hardware.ts';
import { stringWords } from './string-words.ts';
import { Takes } from './takes.tsx';
import styles from './instruments.module.css';

type Props = {
  readonly overview: Overview;
  readonly state: State;
  readonly tunings: readonly Tuning[];
  readonly settings: Settings;
  readonly onEdit: () => void;
  readonly onRemove: () => void;
};

/** What the choice calls where the instrument is now. */
const here = 'here';

/** An instrument's row, opened: pull and margins in the tuning that it is in, what it measures and what is fitted. */
export function OpenInstrument({ overview, state, tunings, settings, onEdit, onRemove }: Props) {
  const { name } = overview.instrument;
  return (
    <div className={styles['open']}>
      <Asked overview={overview} state={state} tunings={tunings} settings={settings} />
      <Facts overview={overview} tuning={state.tuning} tunings={tunings} settings={settings} />
      <div className={styles['buttons']}>
        <Button onPress={onEdit}>Change {name}</Button>
        <Button look="plain" onPress={onRemove}>
          Remove {name}
        </Button>
      </div>
    </div>
  );
}

/** What each string pulls where the instrument is, or would in another tuning; and what has to be said before a peg is touched. */
function Asked({ overview, state, tunings, settings }: Pick<Props, 'overview' | 'state' | 'tunings' | 'settings'>) {
  const [wanted, setWanted] = useState(here);
  const fitting = tunings.filter((one) => tuningOn(overview, one, settings) !== null);
  const to = tuningOn(overview, fitting.find(({ id }) => id === wanted) ?? null, settings);
  const shown = wanted === here || to === null ? state.tuning : to;
  const judged = judgeTuning(overview, shown, state, settings);
  return (
    <>
      <div className={styles['asked']}>
        <Choice
          label="In which tuning"
          hideLabel
          isPlain
          value={wanted}
          options={[
            { value: here, words: `Where it is: ${state.name}` },
            ...fitting.map(({ id, name }) => ({ value: id, words: `If it went to ${name}` })),
          ]}
          onChange={setWanted}
        />
      </div>
      <JudgedPulls
        title={wanted === here ? `Pull of each string in ${state.tuning.name}` : `Now, and in ${shown.name}`}
        judged={judged}
        from={state.tuning}
        to={shown}
        overview={overview}
        settings={settings}
      />
      <CautionBlock judged={judged} courses={overview.stringSet.courses.length} />
    </>
  );
}

function Facts({
  overview,
  tuning,
  tunings,
  settings,
}: Pick<Props, 'overview' | 'tunings' | 'settings'> & { readonly tuning: TuningHere }) {
  const { instrument, stringSet } = overview;
  const now = useNow();
  const home = homePitches(stringSet);
  const pulls = tuning.hertz.flatMap((strings, course) => strings.map((pitch, string) => pullAt(overview, course, string, pitch).newtons));
  const total = togetherOf(pulls);
  const held = hardwareWords(instrument);
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
        <ul className="small quiet">
          {stringSet.courses.map(({ strings }, course) => (
            <li key={course}>
              {courseNumber(course, stringSet.courses.length)}: {listed(strings.map(stringWords))}
            </li>
          ))}
        </ul>
      </dd>
      {held === null ? null : (
        <>
          <dt>Held by</dt>
          <dd>{held}</dd>
        </>
      )}
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
