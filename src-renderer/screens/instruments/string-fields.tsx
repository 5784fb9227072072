import { courseNumber } from '#shared/instruments/index.ts';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { TwoWay } from '../../ui/two-way.tsx';
import type { StringDraft } from './draft.ts';
import { materialOptions } from './string-words.ts';
import styles from './edit-instrument.module.css';

type TextName = 'home' | 'diameterMillimetres' | 'gramsPerMetre' | 'ratedNewtons';

type Props = {
  readonly course: number;
  readonly courses: number;
  readonly string: StringDraft;
  /** What the string pulls as it is written here, in words. */
  readonly effect: string;
  /** The first of the lines has the labels; for the others they are only spoken. */
  readonly isFirst: boolean;
  readonly problemAt: (name: TextName) => string | null;
  readonly onChange: (string: StringDraft) => void;
};

/** The line of one string: where it is at home, what it is made of, how thick or heavy it is. */
export function StringFields({ course, courses, string, effect, isFirst, problemAt, onChange }: Props) {
  const number = courseNumber(course, courses);
  const text = (name: TextName, label: string) => (
    <Field
      label={isFirst ? label : `Course ${number}: ${label}`}
      hideLabel={!isFirst}
      value={string[name]}
      onChange={(value) => onChange({ ...string, [name]: value })}
      problem={problemAt(name)}
    />
  );
  return (
    <fieldset className={`${styles['string']} ${isFirst ? styles['first'] : ''}`} aria-label={`Course ${number}`}>
      <span className={styles['number']}>{number}</span>
      {text('home', 'At home in')}
      <Choice
        label={isFirst ? 'Material' : `Course ${number}: material`}
        hideLabel={!isFirst}
        options={materialOptions}
        value={string.material}
        onChange={(value) => {
          const material = materialOptions.find((option) => option.value === value)?.value;
          if (material !== undefined) onChange({ ...string, material });
        }}
      />
      <div>
        {isFirst ? <p className={`small quiet ${styles['label']}`}>Made</p> : null}
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
      {text('ratedNewtons', 'Rated to, N')}
      <output className={`small quiet ${styles['effect']}`}>{effect}</output>
    </fieldset>
  );
}
