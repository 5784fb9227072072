import { duplicates, type Lying, lyingOf, type Tuning } from '#shared/tunings/index.ts';
import { count, listed } from '../../ui/words.ts';

/** Of tunings with the same shapes so many are named, the nearest first. */
const named = 3;

/**
 * What is known of the whole library: for the rows that stand there more than once all that are the same tuning, by id; and by their shapes those that
 * lie higher or lower than one another.
 */
export type Kin = {
  readonly repeated: ReadonlyMap<string, readonly Tuning[]>;
  readonly families: ReadonlyMap<string, readonly { readonly name: string; readonly semitones: number }[]>;
};

/** Before the library was gone through. */
export const noKin: Kin = { repeated: new Map(), families: new Map() };

/** The rows that stand in the library more than once. */
export const repeatedOf = (all: readonly Tuning[]): Kin['repeated'] =>
  new Map(duplicates(all).flatMap((group) => group.map(({ id }) => [id, group] as const)));

/** The rows by their shapes. */
export function familiesOf(all: readonly Tuning[]): Kin['families'] {
  const families = new Map<string, { readonly name: string; readonly semitones: number }[]>();
  for (const tuning of all) {
    const lying = lyingOf(tuning);
    if (lying === null) continue;
    const family = families.get(lying.family) ?? [];
    families.set(lying.family, family);
    family.push({ name: tuning.name, semitones: lying.semitones });
  }
  return families;
}

const shiftedFrom = ({ family, semitones }: Lying, { families }: Kin) =>
  (families.get(family) ?? [])
    .map((other) => ({ name: other.name, semitones: semitones - other.semitones }))
    .filter((other) => other.semitones !== 0)
    .sort((a, b) => Math.abs(a.semitones) - Math.abs(b.semitones));

/**
 * What a tuning has in common with others of the library, a sentence each: rows that are the same tuning, others that sound the same on the instrument
 * in hand (`twins`, by name), and those with the same shapes higher or lower.
 */
export function relatives(tuning: Tuning, kin: Kin, twins: readonly string[], instrument: string): readonly string[] {
  const same = (kin.repeated.get(tuning.id) ?? []).filter(({ id }) => id !== tuning.id).map(({ name }) => name);
  const alike = twins.filter((name) => !same.includes(name));
  const lying = lyingOf(tuning);
  const shifted = lying === null ? [] : shiftedFrom(lying, kin);
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
