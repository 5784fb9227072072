import { type ReactNode, useState } from 'react';
import type { Overview } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import { useChange } from '../../stores/library.ts';
import { useNoteAdded } from '../../stores/changes.ts';
import { Button } from '../../ui/button.tsx';
import { count } from '../../ui/words.ts';
import { starterTunings } from './starters.ts';
import styles from './tunings.module.css';

type Props = { readonly overview: Overview; readonly onNew: () => void; readonly children: ReactNode };

/** What is shown while the library has no tuning: the ones to start with, or an own one. */
export function NoTunings({ overview, onNew, children }: Props) {
  const save = useChange('tunings.save');
  const noteAdded = useNoteAdded();
  const [problem, setProblem] = useState<string | null>(null);
  const starters = starterTunings(homePitches(overview.stringSet), () => crypto.randomUUID());
  const add = async (): Promise<void> => {
    for (const tuning of starters) await save.mutateAsync({ ...tuning, courses: [...tuning.courses], home: [...tuning.home], tags: [] });
    noteAdded(starters, 'Added the starter tunings');
  };
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
          <Button
            look="solid"
            isDisabled={save.isPending}
            onPress={() => void add().catch((fault: unknown) => setProblem(fault instanceof Error ? fault.message : String(fault)))}
          >
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
