import { useNavigate } from '@tanstack/react-router';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { Button } from '../../ui/button.tsx';
import { Confirmation } from '../../ui/confirmation.tsx';
import { courseText, listed } from '../../ui/words.ts';
import { SlipMark } from '../slip-mark.tsx';
import { useSlipping } from '../use-slipping.ts';
import { carriedTo } from './carried.ts';
import { takersOf } from './tuning-rows.ts';
import styles from './carry-page.module.css';

type Props = {
  readonly tuning: Tuning;
  readonly others: readonly Overview[];
  readonly settings: Settings;
  readonly onClose: () => void;
};

/** The same tuning on the other instruments: what it is there, and the way to plan it there. */
export function CarryPage({ tuning, others, settings, onClose }: Props) {
  const navigate = useNavigate();
  const slipping = useSlipping();
  const there = carriedTo(tuning, others, settings);
  const { cannot } = takersOf(tuning, others, settings);
  return (
    <Confirmation title={`Carry ${tuning.name} to …`} isOpen onClose={onClose}>
      {there.length === 0 ? <p className="quiet">None of your other instruments has {tuning.courses.length} courses.</p> : null}
      <ul className={styles['list']}>
        {there.map(({ id, name, kind, to, chord, stringing, margin }) => (
          <li key={id} className={styles['row']}>
            <div>
              <p>
                <strong>{name}</strong> <span className="small quiet">{kind}</span>
                <SlipMark slipping={slipping(id)} />
              </p>
              <p className={styles['pitches']}>
                {to.pitches.map((strings, course) => (
                  <span key={course}>{courseText(strings)}</span>
                ))}
              </p>
              <p className="small quiet">
                {[chord, stringing, to.sameShapes ? null : 'other shapes', margin].filter((words) => words !== null).join(', ')}
              </p>
            </div>
            <Button onPress={() => void navigate({ to: '/retune', search: { on: id, to: tuning.id } })}>Plan it on {name}</Button>
          </li>
        ))}
      </ul>
      {cannot.length === 0 ? null : (
        <p className="small quiet">Other courses: {listed(cannot.flatMap(({ names }) => names))} can’t take it.</p>
      )}
      <div>
        <Button look="solid" autoFocus onPress={onClose}>
          Leave it here
        </Button>
      </div>
    </Confirmation>
  );
}
