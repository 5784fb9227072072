import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pitchMidi, semitonesBetween, spellTogether, transpose, type SpelledInterval, type SpelledPitch } from '#shared/music/index.ts';
import { carry, duplicates, movesBetween, type OpenPitches, sameTuning, semitonesApart } from '#shared/tunings/index.ts';
import { pitch } from '../../support/pitches.ts';

const seeded = { seed: 11, numRuns: 300 };

const pitches = fc
  .tuple(fc.constantFrom(...'CDEFGAB'.split('')), fc.constantFrom('', 'b', '#'), fc.integer({ min: 2, max: 5 }))
  .map((parts) => pitch(parts.join('')));
/** A home, and every string moved by at most a fourth either way, spelled anew. */
const tunings = (courses: number) =>
  fc.array(fc.record({ home: pitches, step: fc.integer({ min: -5, max: 5 }) }), { minLength: courses, maxLength: courses }).map((rows) => {
    const spelled = spellTogether(rows.map(({ home, step }) => pitchMidi(home) + step));
    return {
      courses: spelled.map((one) => ({ pitches: [one], offsetCents: 0 })),
      home: rows.map(({ home }) => [home]),
    };
  });
const homes = (courses: number) => fc.array(pitches, { minLength: courses, maxLength: courses }).map((row) => row.map((one) => [one]));
const numbers = (row: OpenPitches) => row.flat().map(pitchMidi);
const intervals = fc.constantFrom('2M', '-2M', '3m', '-4P', '5P', '-8P', '2m').map((interval) => interval as SpelledInterval);
const shift = (row: OpenPitches, interval: SpelledInterval): SpelledPitch[][] =>
  row.map((strings) => strings.map((one) => transpose(one, interval)));

describe('carrying', () => {
  test('there and back is the tuning that it was', () => {
    fc.assert(
      fc.property(tunings(4), homes(4), (tuning, there) => {
        const out = carry(tuning, there)!;
        const back = carry({ courses: out.pitches.map((strings) => ({ pitches: [...strings] })), home: there }, tuning.home)!;
        expect(numbers(back.pitches)).toEqual(numbers(tuning.courses.map((course) => course.pitches)));
        expect(back.sameShapes).toBe(out.sameShapes);
      }),
      seeded,
    );
  });

  test('home is the tuning itself, spelling and all', () => {
    fc.assert(
      fc.property(tunings(5), (tuning) => {
        expect(carry(tuning, tuning.home)?.pitches).toEqual(tuning.courses.map((course) => course.pitches));
      }),
      seeded,
    );
  });

  test('to a transposed home transposes the tuning, and keeps the shapes', () => {
    fc.assert(
      fc.property(tunings(4), intervals, (tuning, interval) => {
        const moved = carry(tuning, shift(tuning.home, interval))!;
        const expected = shift(
          tuning.courses.map((course) => course.pitches),
          interval,
        );
        expect(numbers(moved.pitches)).toEqual(numbers(expected));
        expect(moved.sameShapes).toBe(true);
      }),
      seeded,
    );
  });

  test('the octave of a course changes neither moves nor shapes', () => {
    fc.assert(
      fc.property(tunings(4), fc.integer({ min: 0, max: 3 }), (tuning, course) => {
        const there = tuning.home.map((strings, index) =>
          index === course ? strings.map((one) => transpose(one, '8P' as SpelledInterval)) : strings,
        );
        const moved = carry(tuning, there)!;
        expect(moved.sameShapes).toBe(true);
        const steps = moved.pitches.map((strings, index) => semitonesBetween(there[index]![0]!, strings[0]!));
        expect(steps).toEqual(tuning.home.map((strings, index) => semitonesBetween(strings[0]!, tuning.courses[index]!.pitches[0]!)));
      }),
      seeded,
    );
  });
});

describe('moves', () => {
  test('from a to b and from b to c come to those from a to c', () => {
    fc.assert(
      fc.property(homes(4), homes(4), homes(4), (a, b, c) => {
        const [first, second, whole] = [movesBetween(a, b), movesBetween(b, c), movesBetween(a, c)];
        for (const [course, move] of whole.entries()) {
          expect(first[course]!.semitones + second[course]!.semitones).toBe(move.semitones);
          expect(transpose(a[course]![0]!, move.interval)).toBe(c[course]![0]);
        }
      }),
      seeded,
    );
  });
});

describe('one tuning in two rows', () => {
  test('written for a transposed home it is found again, and only then', () => {
    fc.assert(
      fc.property(tunings(4), tunings(4), intervals, (tuning, other, interval) => {
        const twin = {
          home: shift(tuning.home, interval),
          courses: tuning.courses.map((course) => ({ ...course, pitches: shift([course.pitches], interval)[0]! })),
        };
        expect(sameTuning(tuning, twin)).toBe(true);
        expect(semitonesApart(twin, tuning)).toBe(0);
        expect(duplicates([tuning, other, twin])).toEqual(sameTuning(tuning, other) ? [[tuning, other, twin]] : [[tuning, twin]]);
      }),
      seeded,
    );
  });
});
