import { useState } from 'react';
import { Field } from '../../ui/field.tsx';
import { figure } from '../../ui/words.ts';
import { readNumber } from '../numbers.ts';

type Props = {
  readonly label: string;
  readonly hint: string;
  readonly value: number;
  /** What is wrong with a number, in a sentence, or null; a line that is no number is asked with null. */
  readonly problemOf: (value: number | null) => string | null;
  readonly onChange: (value: number) => void;
};

/** A number that is kept as soon as the player leaves the field; until then, and while it is wrong, it stands as it was typed. */
export function NumberSetting({ label, hint, value, problemOf, onChange }: Props) {
  const [text, setText] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const finish = () => {
    if (text === null) return;
    const read = readNumber(text);
    const wrong = problemOf(read);
    setProblem(wrong);
    if (wrong !== null || read === null) return;
    if (read !== value) onChange(read);
    setText(null);
  };
  return (
    <Field
      label={label}
      hint={hint}
      value={text ?? figure(value, Number.isInteger(value) ? 0 : 1)}
      onChange={setText}
      onDone={finish}
      problem={problem}
    />
  );
}
