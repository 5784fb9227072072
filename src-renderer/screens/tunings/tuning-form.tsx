import { useState } from 'react';
import { Form } from 'react-aria-components';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { OpenPitches, Tuning } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';
import { useSaveTuning } from '../../stores/changes.ts';
import { type HeardCourse, playedPitches } from '../../stores/played.ts';
import { hearStrum } from '../../stores/session.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { Switch } from '../../ui/switch.tsx';
import { useTop } from '../../ui/top.ts';
import { chordText, courseText } from '../../ui/note-names.ts';
import {
  centsFields,
  type Draft,
  draftOf,
  type Ground,
  keys,
  pitchesText,
  type Problems,
  readDraft,
  readPitches,
  spelledIn,
} from './draft.ts';
import { CautionBlock } from '../caution-block.tsx';
import { JudgedPulls } from '../judged-pulls.tsx';
import { CentsFields } from './cents-fields.tsx';
import { draftHere } from './draft-here.ts';
import { PlayIn } from './play-in.tsx';
import styles from './tuning-form.module.css';

type Props = {
  readonly ground: Ground;
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly settings: Settings;
  readonly onLeave: () => void;
};

/** A tuning to write down or to change. Nothing that was typed is lost while something is wrong. */
export function TuningForm({ ground, overview, tunings, settings, onLeave }: Props) {
  const [draft, setDraft] = useState<Draft>(() => draftOf(ground));
  const [problems, setProblems] = useState<Problems>({});
  const save = useSaveTuning();
  const page = useTop<HTMLFormElement>();
  const [heard, setHeard] = useState<readonly HeardCourse[]>([]);
  const [keepsCents, setKeepsCents] = useState(false);
  const set = (change: Partial<Draft>) => setDraft((before) => ({ ...before, ...change }));
  const submit = () => {
    const read = readDraft(draft, ground, crypto.randomUUID());
    setProblems('problems' in read ? read.problems : {});
    if (!('problems' in read)) save.save(read, ground.tuning, onLeave);
  };
  const takeHeard = (courses: readonly HeardCourse[]) => {
    setHeard(courses);
    setKeepsCents(false);
    const { pitches } = playedPitches(courses, hertz(settings.referenceHertz));
    set({ pitches: pitchesText(pitches.map((pitch) => [pitch])), offsets: centsFields(courses.map(() => 0)) });
  };
  const keepCents = (keeps: boolean) => {
    setKeepsCents(keeps);
    const { offsetCents } = playedPitches(heard, hertz(settings.referenceHertz));
    set({ offsets: centsFields(keeps ? offsetCents : offsetCents.map(() => 0)) });
  };
  const here = draftHere(draft, ground, { overview, tunings, settings });
  const isHere = ground.home.length === overview.stringSet.courses.length;
  const field = (
    name: 'name' | 'pitches' | 'tags' | 'notes',
    label: string,
    more: { readonly hint?: string; readonly autoFocus?: boolean; readonly isLong?: boolean } = {},
  ) => <Field label={label} value={draft[name]} onChange={(value) => set({ [name]: value })} problem={problems[name] ?? null} {...more} />;
  return (
    <Form
      ref={page}
      className={styles['form'] ?? ''}
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
    >
      <h1>{titleOf(ground)}</h1>
      <div className={styles['line']}>
        {field('name', 'Name', { autoFocus: true })}
        {field('pitches', 'Open strings, the one nearest your eye first', {
          hint: pitchHint(draft.pitches, ground.home, overview.instrument.name),
        })}
      </div>
      {ground.tuning === null && isHere ? <PlayIn overview={overview} settings={settings} onHeard={takeHeard} /> : null}
      {heard.length === 0 ? null : (
        <Switch words="Keep how far each course lies from its note, in cents" isOn={keepsCents} onChange={keepCents} />
      )}
      {here === null ? null : (
        <div className={styles['margins']}>
          <JudgedPulls
            title={`On ${overview.instrument.name}, now and then`}
            judged={here.judged}
            from={here.from}
            to={here.to}
            overview={overview}
            settings={settings}
          />
          <CautionBlock judged={here.judged} courses={overview.stringSet.courses.length} />
        </div>
      )}
      <div className={styles['line']}>
        <div className={styles['key']}>
          <Choice
            label="Spelled as in"
            options={keys().map(({ words }) => ({ value: words, words }))}
            value={null}
            empty="the key of …"
            onChange={(words) => {
              const chosen = keys().find((one) => one.words === words);
              if (chosen !== undefined) set({ pitches: spelledIn(draft.pitches, ground.home, chosen.key) });
            }}
          />
        </div>
        <CentsFields offsets={draft.offsets} problems={problems} onChange={(offsets) => set({ offsets })} />
      </div>
      <div className={styles['line']}>
        {field('tags', 'Tags, parted by commas')}
        {field('notes', 'Notes', { isLong: true })}
      </div>
      {save.error === null ? null : <p role="alert">{save.error.message}</p>}
      <div className={styles['bottom']}>
        <Button look="solid" submits isDisabled={save.isPending}>
          Save
        </Button>
        {here === null ? null : <Button onPress={() => hearStrum(here.to.hertz.flat())}>Hear it</Button>}
        <Button look="plain" onPress={onLeave}>
          {ground.tuning === null ? 'Not now' : 'Leave it as it was'}
        </Button>
      </div>
    </Form>
  );
}

const titleOf = ({ tuning, startsFrom }: Ground): string =>
  tuning !== null ? `Change ${tuning.name}` : startsFrom === undefined ? 'A new tuning' : `A new tuning, from ${startsFrom.name}`;

/** While the line is right: what chord it makes. Else how it is written. */
function pitchHint(text: string, home: OpenPitches, instrument: string): string {
  const read = text.trim() === '' ? null : readPitches(text, home);
  if (read === null || 'sentence' in read) return `Like ${home.map(courseText).join(' ')}, where ${instrument} is at home.`;
  const chord = chordText(read.flat());
  return chord === null ? 'They make no chord with a plain name.' : `They make ${chord}.`;
}
