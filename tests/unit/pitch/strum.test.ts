import { describe, expect, test } from 'vitest';
import { readStrum } from '#shared/pitch/index.ts';
import { addNoise, pluckSound, sumOf } from '#shared/simulation/sound/index.ts';
import { centsBetween } from './support.ts';

const sampleRateHertz = 48_000;

const strum = (pitches: readonly number[], seed: number, seconds = 1.3) =>
  addNoise(
    sumOf(
      pitches.map(
        (hertz, index) =>
          pluckSound({
            hertz,
            sampleRateHertz,
            seconds,
            seed: seed + index,
            pluckedAtSeconds: 0.1 + 0.02 * index,
            inharmonicity: 1.5e-4,
          }).samples,
      ),
    ),
    { ratioDecibels: 30, sampleRateHertz, seed },
  );

const hertzOf = (reading: ReturnType<typeof readStrum>[number][number] | undefined) =>
  reading !== undefined && 'hertz' in reading ? reading.hertz : Number.NaN;

describe('a strum', () => {
  test.each([
    { name: 're-entrant ukulele', wanted: [391.995, 261.626, 329.628, 440] },
    { name: 'baritone', wanted: [146.832, 195.998, 246.942, 329.628] },
  ])('of a $name gives every string within a cent and a half', ({ wanted }) => {
    const sounding = wanted.map((hertz, index) => hertz * 2 ** ((index * 13 - 20) / 1200));
    const readings = readStrum(strum(sounding, 70), { sampleRateHertz, courses: wanted.map((hertz) => [hertz]) });
    for (const [index, hertz] of sounding.entries()) expect(Math.abs(centsBetween(hertzOf(readings[index]?.[0]), hertz))).toBeLessThan(1.5);
  });

  test('says that two strings of one pitch cannot be told apart, and reads the others', () => {
    const readings = readStrum(strum([391.995, 261.626, 329.628, 392.02], 80), {
      sampleRateHertz,
      courses: [[391.995], [261.626], [329.628], [391.995]],
    });
    expect(readings[0]).toEqual([{ refusal: 'two sounds' }]);
    expect(readings[3]).toEqual([{ refusal: 'two sounds' }]);
    expect(centsBetween(hertzOf(readings[1]?.[0]), 261.626)).toBeCloseTo(0, 0);
  });

  test('does not invent a string that did not sound', () => {
    const readings = readStrum(strum([391.995, 261.626, 440], 90), { sampleRateHertz, courses: [[391.995], [261.626], [311.127], [440]] });
    expect(readings[2]).toEqual([{ refusal: 'unclear' }]);
  });

  test('of one string in a room without any noise is that string', () => {
    for (const seed of [7, 8, 9, 10]) {
      const alone = pluckSound({ hertz: 440, sampleRateHertz: 44_100, seconds: 1.2, seed, pluckedAtSeconds: 0.2 }).samples;
      const readings = readStrum(alone, { sampleRateHertz: 44_100, courses: [[391.995], [261.626], [329.628], [440]] });
      expect(readings.slice(0, 3)).toEqual([[{ refusal: 'unclear' }], [{ refusal: 'unclear' }], [{ refusal: 'unclear' }]]);
      expect(centsBetween(hertzOf(readings[3]?.[0]), 440)).toBeCloseTo(0, 1);
    }
  });

  test('does not take the partials of low strings for a high one', () => {
    const guitar = [82.407, 110, 146.832, 195.998, 246.942, 329.628];
    for (const seed of [12, 18, 25]) {
      const readings = readStrum(strum([81.6], seed), { sampleRateHertz, courses: guitar.map((hertz) => [hertz]) });
      expect(centsBetween(hertzOf(readings[0]?.[0]), 81.6)).toBeCloseTo(0, 0);
      for (const [reading] of readings.slice(1)) expect(reading).toHaveProperty('refusal');
    }
  });

  test('gives a double course only where both its strings stand apart', () => {
    for (const [cents, known] of [
      [30, true],
      [0.1, false],
    ] as const) {
      const readings = readStrum(strum([440, 440 * 2 ** (cents / 1200)], 61), { sampleRateHertz, courses: [[440, 440]] });
      expect(readings[0]?.map((reading) => 'hertz' in reading)).toEqual([known, known]);
      if (known) expect(Math.abs(centsBetween(hertzOf(readings[0]?.[1]), hertzOf(readings[0]?.[0])) - cents)).toBeLessThan(1.5);
    }
  });

  test('reads a double course whose strings are closer than their lines can be told apart, with errors that hold', () => {
    // Three quarters of a hertz at the first partial, in less than a second of sound.
    const sounding = [440, 440 * 2 ** (3 / 1200), 293.665];
    for (const seed of [201, 211, 221]) {
      const [course = []] = readStrum(strum(sounding, seed), { sampleRateHertz, courses: [[440, 440], [293.665]] });
      for (const [index, reading] of course.entries()) {
        if ('refusal' in reading) throw new Error(reading.refusal);
        expect(Math.abs(centsBetween(reading.hertz, sounding[index] ?? Number.NaN))).toBeLessThan(4 * reading.sigmaCents);
        expect(reading.sigmaCents).toBeLessThan(1);
      }
    }
  });

  test('that began three seconds ago is read where it was loud', () => {
    const readings = readStrum(strum([391.995, 261.626, 329.628, 440], 95, 3.3), {
      sampleRateHertz,
      courses: [[391.995], [261.626], [329.628], [440]],
    });
    expect(readings.flat().map((reading) => 'hertz' in reading)).toEqual([true, true, true, true]);
  });

  test('of nothing is silence', () => {
    expect(readStrum(new Float32Array(48_000), { sampleRateHertz, courses: [[440], [330, 330]] })).toEqual([
      [{ refusal: 'silence' }],
      [{ refusal: 'silence' }, { refusal: 'silence' }],
    ]);
  });
});
