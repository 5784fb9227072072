import type { Overview } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { Button } from '../../ui/button.tsx';
import { startersFor, useAddStarters } from '../use-starters.ts';
import styles from './tunings.module.css';

/** Said where no tuning of the library is for the instrument in hand, with the ones to start with. */
export function NoneFits({ overview, tunings }: { readonly overview: Overview; readonly tunings: readonly Tuning[] }) {
  const { add, isPending, problem } = useAddStarters();
  const starters = startersFor(homePitches(overview.stringSet), tunings);
  return (
    <div className={styles['none']}>
      <p>None of these tunings is for {overview.instrument.name}.</p>
      {starters.length === 0 ? null : (
        <Button isDisabled={isPending} onPress={() => add(starters)}>
          Add {starters.length} to start with
        </Button>
      )}
      {problem === null ? null : <p role="alert">{problem}</p>}
    </div>
  );
}
