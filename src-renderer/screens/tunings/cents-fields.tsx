import { courseNumber } from '#shared/instruments/index.ts';
import { Field } from '../../ui/field.tsx';
import type { Problems } from './draft.ts';
import styles from './tuning-form.module.css';

type Props = { readonly offsets: readonly string[]; readonly problems: Problems; readonly onChange: (offsets: readonly string[]) => void };

/** How far each course is wanted beside its pitch, in cents. */
export const CentsFields = ({ offsets, problems, onChange }: Props) => (
  <fieldset className={styles['offsets']}>
    <legend className="small quiet">Cents above or below these pitches, where you want that</legend>
    {offsets.map((text, course) => (
      <Field
        key={course}
        label={`Course ${courseNumber(course, offsets.length)}`}
        value={text}
        onChange={(value) => onChange(offsets.map((one, place) => (place === course ? value : one)))}
        problem={problems[`offset ${course}`] ?? null}
      />
    ))}
  </fieldset>
);
