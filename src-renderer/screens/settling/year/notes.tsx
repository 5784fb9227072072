import { useState } from 'react';
import type { Overview } from '#shared/contract/index.ts';
import type { Note } from '#shared/log/index.ts';
import { useNote } from '../../../stores/remarks.ts';
import { Button } from '../../../ui/button.tsx';
import { Field } from '../../../ui/field.tsx';
import { when } from '../../../ui/time.ts';
import { NewString } from './new-string.tsx';
import styles from './notes.module.css';

type Props = { readonly overview: Overview; readonly notes: readonly Note[]; readonly now: number };

/** The player's notes about an instrument, numbered as on the boards, and a line to write another. */
export function Notes({ overview, notes, now }: Props) {
  const { id, name } = overview.instrument;
  const { write, error, isPending } = useNote();
  const [words, setWords] = useState('');
  const [changed, setChanged] = useState<string | null>(null);
  const begin = (note: Note) => {
    setChanged(note.id);
    setWords(note.words);
  };
  const save = () => {
    if (words.trim() === '') return;
    write(id, words.trim(), changed);
    setWords('');
    setChanged(null);
  };
  return (
    <section className={styles['notes']} aria-label="Notes">
      <ol className={styles['list']}>
        {notes.map((note, index) => (
          <li key={note.id}>
            <span className="faint">{index + 1}</span>
            <span className="quiet">{when(note.at, now)}</span>
            <p>{note.words}</p>
            <span className={styles['row']}>
              <Button look="plain" onPress={() => begin(note)}>
                Change
              </Button>
              <Button look="plain" onPress={() => write(id, '', note.id)}>
                Remove
              </Button>
            </span>
          </li>
        ))}
      </ol>
      <form
        className={styles['write']}
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <Field
          label={changed === null ? `A note on ${name}` : `Note ${notes.findIndex((note) => note.id === changed) + 1}, in other words`}
          value={words}
          onChange={setWords}
          problem={error?.message ?? null}
        />
        <Button submits isDisabled={isPending || words.trim() === ''}>
          Write it down
        </Button>
      </form>
      <NewString overview={overview} />
    </section>
  );
}
