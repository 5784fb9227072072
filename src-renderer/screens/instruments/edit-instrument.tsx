import { type ReactNode, useState } from 'react';
import { Form } from 'react-aria-components';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { useSaveInstrument } from '../../stores/changes.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { Switch } from '../../ui/switch.tsx';
import { dayText, type Draft, draftOf, type Problems, readDraft } from './draft.ts';
import { stringEffect, totalEffect } from './gauge-effect.ts';
import { bridgeOptions, kindOf, pegOptions, unsaid } from './hardware.ts';
import { StringFields } from './string-fields.tsx';
import styles from './edit-instrument.module.css';

type Props = { readonly overview: Overview; readonly settings: Settings; readonly onLeave: () => void };

/** Everything of an instrument that can be changed, in its row. */
export function EditInstrument({ overview, settings, onLeave }: Props) {
  const [draft, setDraft] = useState<Draft>(() => draftOf(overview));
  const [problems, setProblems] = useState<Problems>({});
  const save = useSaveInstrument();
  const set = (change: Partial<Draft>) => setDraft((before) => ({ ...before, ...change }));
  const submit = () => {
    const read = readDraft(draft, overview, { stringSetId: crypto.randomUUID(), at: Date.now() });
    setProblems('problems' in read ? read.problems : {});
    if ('problems' in read) return;
    const { name } = overview.instrument;
    save.save(read, overview, draft.hasNewStrings ? `Put ${read.stringSet.name} on ${name}` : `Changed ${name}`, onLeave);
  };
  const field = (
    name: 'name' | 'kind' | 'scaleLengthMillimetres' | 'frets' | 'setName' | 'fittedOn',
    label: string,
    isFirst = false,
  ): ReactNode => (
    <Field
      label={label}
      value={draft[name]}
      onChange={(value) => set({ [name]: value })}
      problem={problems[name] ?? null}
      autoFocus={isFirst}
    />
  );
  return (
    <Form
      className={styles['form'] ?? ''}
      aria-label={`Change ${overview.instrument.name}`}
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
    >
      <div className={styles['line']}>
        {field('name', 'Name', true)}
        {field('kind', 'Kind')}
        {field('scaleLengthMillimetres', 'Scale length, mm')}
        {field('frets', 'Frets')}
      </div>
      <div className={styles['strings']}>
        {draft.courses.map((strings, course) =>
          strings.map((string, index) => (
            <StringFields
              key={`${course} ${index}`}
              course={course}
              courses={draft.courses.length}
              string={string}
              effect={stringEffect(overview, draft, course, index, settings.referenceHertz)}
              isFirst={course === 0 && index === 0}
              problemAt={(name) => problems[`${name} ${course} ${index}`] ?? null}
              onChange={(changed) =>
                set({
                  courses: draft.courses.map((row, at) =>
                    at === course ? row.map((one, place) => (place === index ? changed : one)) : row,
                  ),
                })
              }
            />
          )),
        )}
      </div>
      <p className="quiet">{totalEffect(overview, draft, settings.referenceHertz)}</p>
      <div className={styles['line']}>
        {field('setName', 'Name of these strings')}
        {field('fittedOn', 'Fitted on')}
        <Choice
          label="Pegs"
          options={pegOptions}
          value={draft.pegs ?? unsaid}
          onChange={(value) => set({ pegs: kindOf(pegOptions, value) })}
        />
        <Choice
          label="The other end of the strings"
          options={bridgeOptions}
          value={draft.bridge ?? unsaid}
          onChange={(value) => set({ bridge: kindOf(bridgeOptions, value) })}
        />
      </div>
      <div className={styles['switches']}>
        <Switch
          words="These are new strings"
          isOn={draft.hasNewStrings}
          onChange={(hasNewStrings) => set({ hasNewStrings, fittedOn: dayText(hasNewStrings ? Date.now() : overview.stringSet.fittedAt) })}
        />
        <Switch words="Left-handed" isOn={draft.leftHanded} onChange={(leftHanded) => set({ leftHanded })} />
        <Switch words="Strung upside down" isOn={draft.upsideDown} onChange={(upsideDown) => set({ upsideDown })} />
        <Switch words="Its pegs have play" isOn={draft.pegsHavePlay} onChange={(pegsHavePlay) => set({ pegsHavePlay })} />
      </div>
      {draft.hasNewStrings ? (
        <p className={`small quiet ${styles['note']}`}>New strings begin a history of their own; that of the strings before them stays.</p>
      ) : null}
      {Object.keys(problems).length === 0 ? null : <p role="alert">Not saved yet: see the fields marked above.</p>}
      {save.error === null ? null : <p role="alert">{save.error.message}</p>}
      <div className={styles['buttons']}>
        <Button look="solid" submits isDisabled={save.isPending}>
          Save
        </Button>
        <Button look="plain" onPress={onLeave}>
          Leave it as it was
        </Button>
      </div>
    </Form>
  );
}
