import { useState } from 'react';
import type { Overview } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { useChangeString } from '../../../stores/remarks.ts';
import { Button } from '../../../ui/button.tsx';
import { Choice } from '../../../ui/choice.tsx';
import { ordinal } from '../../../ui/words.ts';
import styles from './notes.module.css';

/** Notes that one string was changed for another like it today: from now on it is judged as a new one. */
export function NewString({ overview: { stringSet } }: { readonly overview: Overview }) {
  const { change, error, isPending } = useChangeString();
  const [isOpen, setOpen] = useState(false);
  const [chosen, setChosen] = useState<string | null>(null);
  const { courses } = stringSet;
  const strings = courses.flatMap((on, course) =>
    on.strings.map((fitted, string) => ({
      value: `${course} ${string}`,
      words: `course ${courseNumber(course, courses.length)}${on.strings.length > 1 ? `, ${ordinal(string)} string` : ''}`,
      row: { course, string, material: fitted.material, wound: fitted.wound, diameterMillimetres: fitted.diameterMillimetres },
    })),
  );
  const string = strings.find(({ value }) => value === chosen);
  if (!isOpen) {
    return (
      <div className={styles['new']}>
        <Button look="plain" onPress={() => setOpen(true)}>
          Note a new string
        </Button>
      </div>
    );
  }
  return (
    <div className={styles['new']}>
      <Choice label="Which string is new" hideLabel options={strings} value={chosen} onChange={setChosen} empty="Which string?" />
      <p className="small quiet">One like the old one; its history begins anew.</p>
      <Button
        isDisabled={string === undefined || isPending}
        onPress={() => {
          if (string === undefined) return;
          const words = `New string on ${string.words}`;
          change({ ...string.row, stringSetId: stringSet.id, at: Date.now(), words }, () => setOpen(false));
        }}
      >
        {string === undefined ? 'New string today' : `New string on ${string.words} today`}
      </Button>
      <Button look="plain" onPress={() => setOpen(false)}>
        Leave it
      </Button>
      {error === null ? null : <p role="alert">{error.message}</p>}
    </div>
  );
}
