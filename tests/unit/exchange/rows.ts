import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import type { LibraryRows } from '#shared/exchange/index.ts';
import { parsePitch, type SpelledPitch } from '#shared/music/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { instrument, reading, remarks, retune, stringSet, tuning, turn } from '../../support/wren.ts';

export const noRows: LibraryRows = {
  instruments: [],
  stringSets: [],
  tunings: [],
  songs: [],
  retunes: [],
  turns: [],
  readings: [],
  notes: [],
  stringChanges: [],
  warningsSeen: [],
  snoozes: [],
  corrections: [],
  changeCorrections: [],
};

/** Wren with her strings, a tuning, a song in it, a retune and what was heard. */
export const wrenRows: LibraryRows = {
  instruments: [instrument],
  stringSets: [stringSet],
  tunings: [tuning],
  songs: [{ id: 'song', title: 'The Slow Ferry', key: 'C', tuningId: tuning.id, instrumentId: instrument.id }],
  retunes: [retune],
  turns: [turn],
  readings: [reading],
  ...remarks,
};

const letters = ['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const;
const signs = ['', 'b', '#'] as const;

/** Invented tunings: random spelled pitches, offsets, tags; the same ones for the same seed. */
export function inventedTunings(count: number, seed: number): Tuning[] {
  const random = xoroshiro128plus(seed);
  const whole = (from: number, to: number): number => uniformInt(random, from, to);
  const pitch = (): SpelledPitch => {
    const read = parsePitch(`${letters[whole(0, 6)]}${signs[whole(0, 2)]}${whole(2, 5)}`);
    if (read === null) throw new RangeError('every letter with every sign is a pitch');
    return read;
  };
  return Array.from({ length: count }, (_, index) => {
    const courses = whole(4, 6);
    return {
      id: `tuning ${seed} ${index}`,
      name: `Invented ${index}`,
      courses: Array.from({ length: courses }, () => ({ pitches: [pitch()], offsetCents: whole(-500, 500) / 10 })),
      home: Array.from({ length: courses }, () => [pitch()]),
      favourite: whole(0, 1) === 1,
      tags: Array.from({ length: whole(0, 3) }, (_none, at) => `tag ${at}`),
      notes: '“quoted”, with ♭ and\na second line'.slice(0, whole(0, 38)),
    };
  });
}
