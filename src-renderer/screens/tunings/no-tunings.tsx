import type { ReactNode } from 'react';
import type { Overview } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import { Button } from '../../ui/button.tsx';
import { count } from '../../ui/words.ts';
import { startersFor, useAddStarters } from '../use-starters.ts';
import styles from './tunings.module.css';

type Props = { readonly overview: Overview; readonly onNew: () => void; readonly children: ReactNode };

/** What is shown while the library has no tuning: the ones to start with, or an own one. */
export function NoTunings({ overview, onNew, children }: Props) {
  const { add, isPending, problem } = useAddStarters();
  const starters = startersFor(homePitches(overview.stringSet), []);
  return (
    <section className={styles['empty']}>
      <h1>No tunings yet</h1>
      <p className="lead quiet">
        {starters.length === 0
          ? `Write down the tunings that ${overview.instrument.name} is played in, and see what each asks of its strings.`
          : `Begin with ${count(starters.length, 'tuning')} that ${overview.instrument.name} can take: ${starters.map(({ name }) => name).join(', ')}. Or write down your own.`}
      </p>
      <div className={styles['buttons']}>
        {starters.length === 0 ? null : (
          <Button look="solid" isDisabled={isPending} onPress={() => add(starters)}>
            Add the starter tunings
          </Button>
        )}
        <Button look={starters.length === 0 ? 'solid' : 'framed'} onPress={onNew}>
          New tuning
        </Button>
      </div>
      {problem === null ? null : <p role="alert">{problem}</p>}
      {children}
    </section>
  );
}
