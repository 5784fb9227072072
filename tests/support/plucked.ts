import { writeWav } from '#shared/recording/index.ts';
import { addNoise, pluckSound, sumOf } from '#shared/simulation/sound/index.ts';

/** One pluck: where the string is wanted, in hertz, and from how far to how far beside it its peg takes it, in cents. */
type Plucked = { readonly hertz: number; readonly seconds: number; readonly fromCents: number; readonly toCents: number };

const sampleRateHertz = 16_000;
const gapSeconds = 0.15;
const pegCentsPerSecond = 180;

/** A WAV of plucks one after the other, each string stopped before the next, in a quiet room. */
export function plucked(plucks: readonly Plucked[]): Uint8Array {
  let atSeconds = 0.7;
  const clips = plucks.map(({ hertz, seconds, fromCents, toCents }, index) => {
    const from = atSeconds;
    atSeconds += seconds + gapSeconds;
    const { samples } = pluckSound({
      hertz: hertz * 2 ** (fromCents / 1200),
      sampleRateHertz,
      seconds: from + seconds,
      seed: 40 + index,
      pluckedAtSeconds: from,
      decaySeconds: 4.2,
      glideCents: 2,
      glideSeconds: 0.08,
      pegCents: (at) => {
        const way = Math.max(0, at - from - 0.25) * pegCentsPerSecond;
        return Math.sign(toCents - fromCents) * Math.min(Math.abs(toCents - fromCents), way);
      },
    });
    const stopped = Math.round(0.05 * sampleRateHertz);
    return samples.map((value, at) => value * Math.min(1, (samples.length - at) / stopped));
  });
  const room = new Float32Array(Math.round((atSeconds + 0.3) * sampleRateHertz));
  return writeWav(
    { sampleRateHertz, channels: [addNoise(sumOf([room, ...clips]), { ratioDecibels: 50, sampleRateHertz, seed: 7, colour: 'pink' })] },
    'pcm16',
  );
}
