import { useState } from 'react';
import { Form } from 'react-aria-components';
import { type InstrumentPreset, instrumentPresets, stringing } from '#shared/instruments/index.ts';
import { useSaveInstrument } from '../../stores/changes.ts';
import { useLibrary } from '../../stores/library.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { Switch } from '../../ui/switch.tsx';
import { useTop } from '../../ui/top.ts';
import { count, courseText, listed } from '../../ui/words.ts';
import { startersFor, useAddStarters } from '../use-starters.ts';
import { type Problems, readNew } from './draft.ts';
import { presetWords, stringWords } from './string-words.ts';
import styles from './new-instrument.module.css';

type Props = { readonly onLeave: () => void; readonly onSaved: (id: string) => void };

const usualFirst = instrumentPresets.find(({ id }) => id === 'ukulele-tenor-high-g') ?? instrumentPresets[0];

/** Ids and moment of an instrument that is added now. */
const fresh = () => ({ id: crypto.randomUUID(), stringSetId: crypto.randomUUID(), at: Date.now() });

/** A new instrument from what its kind usually measures and is strung with; everything can be changed afterwards. */
export function NewInstrument({ onLeave, onSaved }: Props) {
  const [preset, setPreset] = useState<InstrumentPreset | undefined>(usualFirst);
  const [name, setName] = useState('');
  const [scaleLengthMillimetres, setScaleLength] = useState(String(preset?.scaleLengthMillimetres ?? ''));
  const [problems, setProblems] = useState<Problems>({});
  const save = useSaveInstrument();
  const { data: tunings } = useLibrary('tunings.list', {});
  const addStarters = useAddStarters();
  const [isWithTunings, setWithTunings] = useState(true);
  const page = useTop<HTMLFormElement>();
  if (preset === undefined) return null;
  const home = preset.courses.map((course) => course.home);
  const starters = startersFor(home, tunings ?? []);
  const usualName = `My ${preset.kind.split(',')[0] ?? preset.kind}`;
  const choose = (id: string) => {
    const chosen = instrumentPresets.find((one) => one.id === id);
    if (chosen === undefined) return;
    // A length that the player typed stays; one that came with the kind goes with it.
    if (scaleLengthMillimetres === String(preset.scaleLengthMillimetres)) setScaleLength(String(chosen.scaleLengthMillimetres));
    setPreset(chosen);
  };
  const submit = () => {
    const read = readNew({ name: name.trim() === '' ? usualName : name, scaleLengthMillimetres, preset }, fresh());
    setProblems('problems' in read ? read.problems : {});
    if ('problems' in read) return;
    save.save(read, null, `Added ${read.instrument.name}`, () => {
      if (isWithTunings) addStarters.add(starters);
      onSaved(read.instrument.id);
    });
  };
  return (
    <Form
      ref={page}
      className={styles['form'] ?? ''}
      aria-label="A new instrument"
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
    >
      <div className={styles['line']}>
        <Field
          label="Name"
          value={name}
          onChange={setName}
          problem={problems['name'] ?? null}
          placeholder={usualName}
          hint="What you call it."
          autoFocus
        />
        <Choice
          label="Kind"
          options={instrumentPresets.map((one) => ({ value: one.id, words: presetWords(one) }))}
          value={preset.id}
          onChange={choose}
        />
        <Field
          label="Scale length, mm"
          value={scaleLengthMillimetres}
          onChange={setScaleLength}
          problem={problems['scaleLengthMillimetres'] ?? null}
          hint="Nut to saddle."
        />
      </div>
      <p className="quiet">
        At home in {home.map(courseText).join(' ')}, {stringing(home)}, strung with{' '}
        {listed(preset.courses.flatMap(({ strings }) => strings.map(stringWords)))}. All of it can be changed afterwards.
      </p>
      {starters.length === 0 ? null : (
        <Switch
          words={`With ${count(starters.length, 'tuning')} to start with: ${listed(starters.slice(0, 3).map((one) => one.name))}${starters.length > 3 ? ' …' : ''}`}
          isOn={isWithTunings}
          onChange={setWithTunings}
        />
      )}
      {save.error === null ? null : <p role="alert">{save.error.message}</p>}
      <div className={styles['buttons']}>
        <Button look="solid" submits shortcut="Enter" isDisabled={save.isPending}>
          Save
        </Button>
        <Button look="plain" onPress={onLeave}>
          Not now
        </Button>
      </div>
    </Form>
  );
}
