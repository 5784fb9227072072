import { describe, expect, test } from 'vitest';
import { readStrum } from '#shared/pitch/index.ts';
import { addNoise, pluckSound, sumOf } from '#shared/simulation/sound/index.ts';
import { centsBetween } from './support.ts';

const sampleRateHertz = 48_000;

const strum = (pitches: readonly number[], seed: number) =>
  addNoise(
    sumOf(
      pitches.map(
        (hertz, index) =>
          pluckSound({
            hertz,
            sampleRateHertz,
            seconds: 1.3,
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

  test('of nothing is silence', () => {
    expect(readStrum(new Float32Array(48_000), { sampleRateHertz, courses: [[440], [330, 330]] })).toEqual([
      [{ refusal: 'silence' }],
      [{ refusal: 'silence' }, { refusal: 'silence' }],
    ]);
  });
});
