import { useState } from 'react';
import { courseNumber } from '#shared/instruments/index.ts';
import { useChangeString } from '../../stores/remarks.ts';
import type { Retuning } from '../../stores/retuning.ts';
import { Button } from '../../ui/button.tsx';
import { whichString } from './sentences.ts';
import styles from './done-page.module.css';

/** Strings that the player said are new are asked about once it is quiet: only then is it written down that they were changed. */
export function NewStrings({ retune: { renewed, overview, to, startedAt } }: { readonly retune: Retuning }) {
  const { error, isPending, change } = useChangeString();
  const [answered, setAnswered] = useState<ReadonlyMap<string, boolean>>(new Map());
  const places = [...new Map(renewed.map((place) => [`${place.course} ${place.string}`, place]))];
  return (
    <>
      {places.map(([key, { course, string }]) => {
        const fitted = overview.stringSet.courses[course]?.strings[string];
        const which = whichString(string, to.pitches[course]?.length ?? 1, overview.instrument);
        const name = [`course ${courseNumber(course, to.pitches.length)}`, which].filter((part) => part !== '').join(', ');
        const answer = answered.get(key);
        if (fitted === undefined || answer === false) return null;
        if (answer === true) return <p key={key}>Written down: a new string on {name}. It begins a history of its own.</p>;
        const say = (isNew: boolean) => setAnswered((before) => new Map(before).set(key, isNew));
        const { material, wound, diameterMillimetres } = fitted;
        const row = { stringSetId: overview.stringSet.id, course, string, at: startedAt, material, wound, diameterMillimetres, words: '' };
        return (
          <div key={key} className={styles['question']}>
            <p>A new string on {name} today?</p>
            <Button isDisabled={isPending} onPress={() => change(row, () => say(true))}>
              Yes, write it down
            </Button>
            <Button look="plain" onPress={() => say(false)}>
              No
            </Button>
          </div>
        );
      })}
      {error === null ? null : <p role="alert">{error.message}</p>}
    </>
  );
}
