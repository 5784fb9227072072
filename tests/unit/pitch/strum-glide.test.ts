import { expect, test } from 'vitest';
import { readStrum } from '#shared/pitch/index.ts';
import { addNoise, pluckSound, sumOf } from '#shared/simulation/sound/index.ts';
import { centsBetween } from './support.ts';

const sampleRateHertz = 48_000;
const ukulele = [391.995, 261.626, 329.628, 440];

test('a strum played hard, whose strings still glide, is given errors that hold in the middle of what was heard', () => {
  let held = 0;
  for (const seed of [3, 4]) {
    const plucks = ukulele.map((hertz, index) =>
      pluckSound({
        hertz,
        sampleRateHertz,
        seconds: 1.3,
        seed: 10 * seed + index,
        pluckedAtSeconds: 0.1 + 0.02 * index,
        glideCents: 15,
        glideSeconds: 0.25,
      }),
    );
    const strum = addNoise(sumOf(plucks.map(({ samples }) => samples)), { ratioDecibels: 30, sampleRateHertz, seed });
    const readings = readStrum(strum, { sampleRateHertz, courses: ukulele.map((hertz) => [hertz]) });
    for (const [index, [reading]] of readings.entries()) {
      if (reading === undefined || 'refusal' in reading) continue;
      if (Math.abs(centsBetween(reading.hertz, plucks[index]!.truthHertz(0.9))) < 2 * reading.sigmaCents) held++;
    }
  }
  expect(held).toBeGreaterThanOrEqual(7);
});
