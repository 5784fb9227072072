import { courseNumber } from '#shared/instruments/index.ts';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { TwoWay } from '../../ui/two-way.tsx';
import type { StringDraft } from './draft.ts';
import { materialOptions } from './string-words.ts';
import styles from './edit-instrument.module.css';

type Props = {
  readonly course: number;
  readonly courses: number;
  readonly string: StringDraft;
  readonly problemAt: (name: 'home' | 'diameterMillimetres' | 'gramsPerMetre') => string | null;
  readonly onChange: (string: StringDraft) => void;
};

/** The line of one string: where it is at home, what it is made of, how thick or heavy it is. */
export function StringFields({ course, courses, string, problemAt, onChange }: Props) {
  const number = courseNumber(course, courses);
  const text = (name: 'home' | 'diameterMillimetres' | 'gramsPerMetre', label: string) => (
    <Field label={label} value={string[name]} onChange={(value) => onChange({ ...string, [name]: value })} problem={problemAt(name)} />
  );
  return (
    <div className={styles['string']} role="group" aria-label={`Course ${number}`}>
      <span className={styles['number']}>{number}</span>
      {text('home', 'At home in')}
      <Choice
        label="Material"
        options={materialOptions}
        value={string.material}
        onChange={(value) => {
          const material = materialOptions.find((option) => option.value === value)?.value;
          if (material !== undefined) onChange({ ...string, material });
        }}
      />
      <div>
        <p className={`small quiet ${styles['label']}`}>Made</p>
        <TwoWay
          label={`Course ${number}: plain or wound`}
          options={[
            { value: 'plain', words: 'plain' },
            { value: 'wound', words: 'wound' },
          ]}
          value={string.wound ? 'wound' : 'plain'}
          onChange={(value) => onChange({ ...string, wound: value === 'wound' })}
        />
      </div>
      {text('diameterMillimetres', 'Diameter, mm')}
      {text('gramsPerMetre', 'Weight, g/m')}
    </div>
  );
}
