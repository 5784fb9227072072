import { describe, expect, test } from 'vitest';
import { startCheck } from '#shared/hearing/index.ts';
import type { PitchFrame } from '#shared/pitch/index.ts';
import { hearLeft, type LeftToPluck } from '../../../src-renderer/stores/after-strum.ts';
import { hertzOf } from '../../support/pitches.ts';

const tuning = hertzOf('G4 C4 E4 G4');
const left = (...unclear: number[]): LeftToPluck => ({ check: startCheck(tuning, tuning), unclear, strumReadAtSeconds: 10 });

/** One string plucked at a moment, heard for a second; what was read of it. */
function pluck(before: LeftToPluck, hertz: number, atSeconds: number) {
  const readings = [];
  let now = before;
  for (let since = 0.05; since < 1; since += 0.02) {
    const frame = { kind: 'frame', atSeconds: atSeconds + since, hertz, sigmaCents: 0.1, sincePluckSeconds: since, steady: since > 0.2 };
    const { reading, ...next } = hearLeft(now, {
      levelDecibels: -20,
      driftCentsPerSecond: 0,
      inharmonicity: 0,
      others: [],
      ...frame,
    } as PitchFrame);
    if (reading !== null) readings.push(reading);
    now = { ...now, ...next };
  }
  return { now, readings };
}

describe('a course that the strum of a check did not tell is asked for by name, and the next sound is its pluck', () => {
  test('one pluck reads it, and the check goes back to strums', () => {
    const { now, readings } = pluck(left(1), tuning[1]?.[0] ?? 0, 11);
    expect(readings).toMatchObject([{ course: 1, string: 0 }]);
    expect(now.unclear).toEqual([]);
  });

  test('of two courses of one pitch the first asked for is the first plucked', () => {
    const first = pluck(left(0, 3), tuning[0]?.[0] ?? 0, 11);
    expect(first.readings).toMatchObject([{ course: 0 }]);
    expect(first.now.unclear).toEqual([3]);
    const second = pluck(first.now, tuning[3]?.[0] ?? 0, 14);
    expect(second.readings).toMatchObject([{ course: 3 }]);
    expect(second.now.unclear).toEqual([]);
  });

  test('what still rings from the strum is nobody’s pluck', () => {
    const { now, readings } = pluck(left(1), tuning[1]?.[0] ?? 0, 9.2);
    expect(readings).toEqual([]);
    expect(now.unclear).toEqual([1]);
  });

  test('another course plucked in its place is read as what it is, and the course is still asked for', () => {
    const { now, readings } = pluck(left(1), tuning[2]?.[0] ?? 0, 11);
    expect(readings).toMatchObject([{ course: 2 }]);
    expect(now.unclear).toEqual([1]);
  });
});
