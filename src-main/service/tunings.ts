import { HostFailure } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { type Library, needOfTuning, putTuning, setTuningRemoved } from '../library/index.ts';

/** Writes a tuning, new or changed. */
export async function saveTuning(library: Library, tuning: Tuning): Promise<Tuning> {
  await putTuning(library.rows, tuning, 'player');
  return tuning;
}

/** Takes a tuning away at `now`; `restoreTuning` brings it back. Throws `in-use` while an instrument stands in it or a song needs it, `not-found`. */
export async function removeTuning(library: Library, { id }: { readonly id: string }, now: number): Promise<void> {
  const need = await needOfTuning(library.rows, id);
  if (need !== null)
    throw new HostFailure(
      'in-use',
      need.kind === 'instrument' ? `“${need.name}” is in this tuning.` : `“${need.name}” is played in this tuning.`,
    );
  if (!(await setTuningRemoved(library.rows, id, now))) throw new HostFailure('not-found');
}

/** Brings a removed tuning back. Throws `not-found`. */
export async function restoreTuning(library: Library, { id }: { readonly id: string }): Promise<void> {
  if (!(await setTuningRemoved(library.rows, id, null))) throw new HostFailure('not-found');
}
