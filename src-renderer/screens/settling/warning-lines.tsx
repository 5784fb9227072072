import type { StringState } from '#shared/contract/index.ts';
import { Button } from '../../ui/button.tsx';
import { type CourseWarning, warningWords } from './warnings.ts';
import styles from './warning-lines.module.css';

type Props = {
  readonly warnings: readonly CourseWarning[];
  readonly now: number;
  readonly onSeen: (string: Pick<StringState, 'course' | 'string' | 'warning'>) => void;
};

/** What is slipping and where to look, right under the headline; what was seen stays there as a quiet line. */
export const WarningLines = ({ warnings, now, onSeen }: Props) => (
  <ul className={styles['lines']} aria-label="Warnings">
    {warnings.map((one) => {
      const { strong, rest, reason } = warningWords(one, now);
      const { row, string, warning, seenAt } = one;
      return (
        <li key={`${row.course} ${string}`} className={styles['line']}>
          <div>
            <p className={seenAt === null ? 'lead' : 'small quiet'}>
              {strong === '' ? null : <strong>{strong}</strong>}
              {rest}
            </p>
            {reason === '' ? null : <p className="small quiet">{reason}</p>}
          </div>
          {seenAt === null ? (
            <Button look="plain" onPress={() => onSeen({ course: row.course, string, warning: { ...warning, isSeen: false } })}>
              Seen it
            </Button>
          ) : null}
        </li>
      );
    })}
  </ul>
);
