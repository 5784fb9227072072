import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, test } from 'vitest';
import { readStrum } from '#shared/pitch/index.ts';
import { addNoise, pluckSound, sumOf } from '#shared/simulation/sound/index.ts';

const sampleRateHertz = 48_000;

/** Strums whose strings differ in stiffness, strength, decay and by up to so many cents in pitch; what was refused, and why. */
const refusalsOf = (courses: readonly (readonly number[])[], strums: number, cents: number, seed: number) => {
  const generator = xoroshiro128plus(seed);
  const uniform = (low: number, high: number) => low + (high - low) * uniformFloat64(generator);
  const refusals: string[] = [];
  for (let strum = 0; strum < strums; strum++) {
    const sounds = courses.flat().map((hertz, index) =>
      pluckSound({
        hertz: hertz * 2 ** (uniform(-cents, cents) / 1200),
        sampleRateHertz,
        seconds: 1.2,
        seed: seed + 20 * strum + index,
        pluckedAtSeconds: 0.1 + 0.015 * index,
        inharmonicity: 10 ** uniform(-4.3, -3.4),
        decaySeconds: uniform(2, 5),
        amplitude: uniform(0.1, 0.25),
      }),
    );
    const samples = addNoise(sumOf(sounds.map((sound) => sound.samples)), { ratioDecibels: 30, sampleRateHertz, seed: seed + strum });
    const readings = readStrum(samples, { sampleRateHertz, courses }).flat();
    for (const reading of readings) if ('refusal' in reading) refusals.push(reading.refusal);
  }
  return refusals;
};

describe('a strum whose strings differ', () => {
  test('is heard string by string, though a loud partial of one lies beside a weak one of another', () => {
    expect(refusalsOf([[195.998], [261.626], [329.628], [440]], 10, 30, 53)).toEqual([]);
  });

  test('tells two strings of one pitch apart in different courses, unless they are the same to a cent', () => {
    expect(refusalsOf([[391.995], [261.626], [329.628], [391.995]], 8, 30, 64)).toEqual([]);
  });

  test('is heard where two strings of a course stand apart and the middle between them looks like a string', () => {
    const mandolin = [195.998, 293.665, 440, 659.255].map((hertz) => [hertz, hertz]);
    expect(refusalsOf(mandolin, 5, 5, 51)).not.toContain('unclear');
  });
});
