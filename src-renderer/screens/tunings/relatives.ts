import { duplicates, semitonesApart, type Tuning } from '#shared/tunings/index.ts';
import { count, listed } from '../../ui/words.ts';

/** Of tunings with the same shapes so many are named, the nearest first. */
const named = 3;

/** What is known of the whole library: its rows, and for those that stand there more than once all rows that are the same tuning, by id. */
export type Kin = { readonly all: readonly Tuning[]; readonly repeated: ReadonlyMap<string, readonly Tuning[]> };

/** Finds the rows that stand in the library more than once. */
export const kinOf = (all: readonly Tuning[]): Kin => ({
  all,
  repeated: new Map(duplicates(all).flatMap((group) => group.map(({ id }) => [id, group] as const))),
});

/**
 * What a tuning has in common with others of the library, a sentence each: rows that are the same tuning, others that sound the same on the instrument
 * in hand (`twins`, by name), and those with the same shapes higher or lower.
 */
export function relatives(tuning: Tuning, { all, repeated }: Kin, twins: readonly string[], instrument: string): readonly string[] {
  const same = (repeated.get(tuning.id) ?? []).filter(({ id }) => id !== tuning.id).map(({ name }) => name);
  const alike = twins.filter((name) => !same.includes(name));
  const shifted = all
    .map((other) => ({ name: other.name, semitones: semitonesApart(tuning, other) ?? 0 }))
    .filter(({ semitones }) => semitones !== 0)
    .sort((a, b) => Math.abs(a.semitones) - Math.abs(b.semitones));
  return [
    ...(same.length === 0 ? [] : [`The same tuning as ${listed(same)}.`]),
    ...(alike.length === 0 ? [] : [`Sounds the same on ${instrument} as ${listed(alike)}.`]),
    ...shifted
      .slice(0, named)
      .map(
        ({ name, semitones }) =>
          `The same shapes as ${name}, ${count(Math.abs(semitones), 'semitone')} ${semitones > 0 ? 'higher' : 'lower'}.`,
      ),
  ];
}
