import { useState } from 'react';
import type { Tuning } from '#shared/tunings/index.ts';
import { useSaveTuning } from '../../stores/changes.ts';
import { Field } from '../../ui/field.tsx';
import { type Draft, draftOf, type Ground, type Problems, readDraft } from './draft.ts';
import styles from './tunings.module.css';

type Props = {
  readonly tuning: Tuning;
  readonly ground: Ground;
  /** Called with the tuning as it is being written, so that its margins follow; null once it is as the library has it. */
  readonly onWriting: (tuning: Tuning | null) => void;
};

/** Pitches, notes and tags of the open tuning, to be changed where they stand. Enter or leaving a field keeps it, Escape leaves it as it was. */
export function EditLine({ tuning, ground, onWriting }: Props) {
  const [written, setWritten] = useState<Draft>(() => draftOf(ground));
  const [of, setOf] = useState(tuning);
  const [problems, setProblems] = useState<Problems>({});
  const save = useSaveTuning();
  // Saved, or taken back: the fields show what the library has now.
  if (of !== tuning) {
    setOf(tuning);
    setWritten(draftOf(ground));
  }
  const show = (draft: Draft): void => {
    setWritten(draft);
    const read = readDraft(draft, ground, tuning.id);
    const isAsItWas = JSON.stringify(draft) === JSON.stringify(draftOf(ground));
    onWriting('problems' in read || isAsItWas ? null : read);
  };
  const keep = (): void => {
    const read = readDraft(written, ground, tuning.id);
    setProblems('problems' in read ? read.problems : {});
    if ('problems' in read || JSON.stringify(read) === JSON.stringify(tuning)) return;
    save.save(read, tuning, () => onWriting(null));
  };
  const drop = (): void => {
    setProblems({});
    show(draftOf(ground));
  };
  const field = (name: 'pitches' | 'notes' | 'tags', label: string) => (
    <Field
      label={label}
      value={written[name]}
      onChange={(value) => show({ ...written, [name]: value })}
      problem={problems[name] ?? null}
      onDone={keep}
      onDrop={drop}
      isLong={name === 'notes'}
    />
  );
  return (
    <div className={styles['more']}>
      <div>{field('pitches', 'Open strings, the one nearest your eye first')}</div>
      <div className={styles['middle']}>{field('notes', 'Notes')}</div>
      <div>
        {field('tags', 'Tags, parted by commas')}
        {save.error === null ? null : <p role="alert">{save.error.message}</p>}
      </div>
    </div>
  );
}
