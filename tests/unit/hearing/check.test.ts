import { describe, expect, test } from 'vitest';
import { type Check, hearPluck, type PluckReading, startCheck } from '#shared/hearing/index.ts';
import { createPitchTracker } from '#shared/pitch/index.ts';
import { demoRecording, lastSteady, truthOf } from '../../support/demo.ts';
import { hertzOf } from '../../support/pitches.ts';

const home = hertzOf('G4 C4 E4 A4');

/** Sounds one string for so long, 50 frames a second. */
function pluck(
  check: Check,
  hertz: number,
  seconds: number,
  from: number,
  steady = true,
): { readonly check: Check; readonly readings: readonly PluckReading[] } {
  const readings: PluckReading[] = [];
  let now = check;
  for (let since = 0; since < seconds; since += 0.02) {
    const heard = hearPluck(now, { atSeconds: from + since, hertz, sigmaCents: 0.2, steady, sincePluckSeconds: since });
    now = heard.check;
    if (heard.reading !== null) readings.push(heard.reading);
  }
  return { check: now, readings };
}

describe('a quick check', () => {
  test('gives one reading a pluck, however long it rings', () => {
    expect(pluck(startCheck(home, home), 441, 4, 0).readings).toMatchObject([{ course: 3, string: 0, hertz: 441, sigmaCents: 0.2 }]);
  });

  test('gives another one for another pluck of the same string', () => {
    const first = pluck(startCheck(home, home), 441, 1, 0);
    expect(pluck(first.check, 441.2, 1, 3).readings).toHaveLength(1);
  });

  test('knows another pluck by when it began, however long the gap in the frames', () => {
    const first = pluck(startCheck(home, home), 441, 0.6, 0);
    const late = { hertz: 441, sigmaCents: 0.2, steady: true };
    let check = first.check;
    let read = 0;
    for (let since = 0.8; since < 1.5; since += 0.02) {
      const heard = hearPluck(check, { ...late, atSeconds: 3 + since, sincePluckSeconds: since });
      check = heard.check;
      read += heard.reading === null ? 0 : 1;
    }
    expect(read).toBe(1);
  });

  test('does not read a pluck that is too short, or that never stands still', () => {
    expect(pluck(startCheck(home, home), 441, 0.3, 0).readings).toEqual([]);
    expect(pluck(startCheck(home, home), 441, 3, 0, false).readings).toEqual([]);
  });

  test('passes over a sound that is no string of the instrument', () => {
    expect(pluck(startCheck(home, home), 120, 2, 0).readings).toEqual([]);
  });

  test('tells two courses a semitone apart by where they stand', () => {
    const near = hertzOf('G4 C4 E4 Ab4');
    expect(pluck(startCheck(near, near), 392.5, 1, 0).readings).toMatchObject([{ course: 0 }]);
    expect(pluck(startCheck(near, near), 404, 1, 0).readings).toEqual([]);
  });

  describe('of two courses of one pitch', () => {
    const unison = hertzOf('G4 C4 E4 G4');

    test('asks for one by name after the other, and believes the pluck that follows', () => {
      const doubtful = pluck(startCheck(unison, unison), 392, 2, 0);
      expect(doubtful).toMatchObject({ readings: [], check: { asked: [0, 3] } });
      const first = pluck(doubtful.check, 392.5, 2, 3);
      expect(first).toMatchObject({ readings: [{ course: 0, hertz: 392.5 }], check: { asked: [3] } });
      const second = pluck(first.check, 391.5, 2, 6);
      expect(second).toMatchObject({ readings: [{ course: 3, hertz: 391.5 }], check: { asked: [] } });
    });

    test('forgets what it asked for where another course is plucked instead', () => {
      const doubtful = pluck(startCheck(unison, unison), 392, 2, 0);
      const other = pluck(doubtful.check, unison[1]![0]!, 2, 3);
      expect(other).toMatchObject({ readings: [{ course: 1 }], check: { asked: [] } });
      expect(pluck(other.check, 392, 2, 6)).toMatchObject({ readings: [], check: { asked: [0, 3] } });
    });
  });

  test('reads the four strings of a recording within half a cent of the truth', () => {
    const lantern = hertzOf('G4 Bb3 Eb4 Bb4');
    const { channels, sampleRateHertz } = demoRecording('wren-after.wav');
    const tracker = createPitchTracker({ sampleRateHertz, hint: { hertz: lantern.flat(), asked: null } });
    const readings: PluckReading[] = [];
    let check = startCheck(lantern, lantern);
    for (const event of tracker.push(channels[0] ?? new Float32Array(0))) {
      if (event.kind !== 'frame') continue;
      const heard = hearPluck(check, event);
      check = heard.check;
      if (heard.reading !== null) readings.push(heard.reading);
    }
    expect(readings.map(({ course }) => course)).toEqual([0, 1, 2, 3]);
    for (const [course, { hertz }] of lastSteady(truthOf('wren-after.wav').plucks)) {
      expect(Math.abs(1200 * Math.log2((readings[course]?.hertz ?? Number.NaN) / hertz))).toBeLessThan(0.5);
    }
  });
});
