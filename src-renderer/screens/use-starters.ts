import { useState } from 'react';
import type { OpenPitches, Tuning } from '#shared/tunings/index.ts';
import { useNoteAdded } from '../stores/changes.ts';
import { useChange } from '../stores/library.ts';
import { starterTunings } from './starters.ts';

/** Puts the starter tunings of an instrument's strings into the library, so that they can be taken back at once. */
export function useAddStarters() {
  const save = useChange('tunings.save');
  const noteAdded = useNoteAdded();
  const [problem, setProblem] = useState<string | null>(null);
  const add = async (starters: readonly Tuning[]): Promise<void> => {
    for (const tuning of starters) await save.mutateAsync(tuning);
    if (starters.length > 0) noteAdded(starters, `Added ${starters.length} starter tunings`);
  };
  return {
    problem,
    isPending: save.isPending,
    add: (starters: readonly Tuning[]): void =>
      void add(starters).catch((fault: unknown) => setProblem(fault instanceof Error ? fault.message : String(fault))),
  };
}

/** The starter tunings for strings at home in these pitches that are not in the library yet. */
export const startersFor = (home: OpenPitches, library: readonly Tuning[]): readonly Tuning[] =>
  starterTunings(home, () => crypto.randomUUID(), library);
