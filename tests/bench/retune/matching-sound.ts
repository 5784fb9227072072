// Matching through real noise: plucks as sound, mixed with noise, heard by the tracker, and each frame matched.
import { matchFrame, type Match, type Strings } from '#shared/matching/index.ts';
import { createPitchTracker } from '#shared/pitch/index.ts';
import { addNoise, pluckSound } from '#shared/simulation/sound/index.ts';
import { drawTimbre } from '#shared/simulation/sounding/index.ts';
import { type Random, seededRandom } from '#shared/simulation/strings/index.ts';
import { emptyTallies } from './tally.ts';

interface Case {
  readonly home: Strings;
  readonly wanted: Strings;
}

const sampleRateHertz = 24_000;
const kinds = ['asked, at its start', 'asked, on its way', 'free, in reach of one'] as const;
const ratios = [40, 20, 10] as const;
const seconds = 1.1;
const pluckedAtSeconds = 0.15;
const at = (from: number, cents: number): number => from * 2 ** (cents / 1200);
const off = (heard: number, from: number): number => 1200 * Math.log2(heard / from);

/** What the tracker hears of one pluck in noise, from 60 ms after it. */
function framesOf(random: Random, hertz: number, ratioDecibels: number, hint: readonly number[], asked: number | null): readonly number[] {
  const seed = Math.floor(random.between(1, 2 ** 31));
  const { samples } = pluckSound({ ...drawTimbre(random), hertz, sampleRateHertz, seconds, seed, pluckedAtSeconds, amplitude: 0.3 });
  const colour = random.pick(['white', 'pink'] as const);
  const noisy = addNoise(samples, { ratioDecibels, sampleRateHertz, seed: seed + 1, colour });
  const tracker = createPitchTracker({ sampleRateHertz, hint: { hertz: hint, asked } });
  return tracker.push(noisy).flatMap((event) => (event.kind === 'frame' && event.atSeconds > pluckedAtSeconds + 0.06 ? [event.hertz] : []));
}

/** The way of a course, and some more than matching's reach. */
const isFarFrom = (pitch: number, present: readonly number[], wanted: readonly number[]): boolean =>
  present.every((from, string) => {
    const [a, b] = [off(pitch, from), off(pitch, wanted[string] ?? from)];
    return Math.sign(a) === Math.sign(b) && Math.min(Math.abs(a), Math.abs(b)) > 175;
  });

/** Plucks so many clips a kind and a level of noise, and prints every frame's and every pluck's answer. */
export function matchSounds(seed: number, cases: readonly Case[], clips: number): void {
  const random = seededRandom(seed + 1);
  const [frames, plucks] = [emptyTallies(), emptyTallies()];
  for (const ratio of ratios)
    for (let clip = 0; clip < clips; clip += 1) {
      const { home, wanted } = random.pick(cases);
      const course = Math.floor(random.between(0, wanted.length));
      const aim = wanted[course]?.[0] ?? 440;
      const isAsked = clip % 2 === 0;
      const share = random.pick([1, 1, 0.5, 0]);
      const start = isAsked ? random.between(-1400, 1400) : 0;
      const present = home.map((strings, one) => (one === course && isAsked ? [at(aim, start)] : strings));
      const heard = isAsked ? at(aim, start * share) : at(random.pick([home[course]?.[0] ?? 440, aim]), random.between(-150, 150));
      const isAlone = wanted.every((strings, one) => one === course || isFarFrom(heard, present[one] ?? [], strings));
      if ((!isAsked && !isAlone) || heard < 60) continue;
      const kind = `${kinds[isAsked ? (share === 1 ? 0 : 1) : 2]}, ${ratio} dB`;
      const asked = isAsked ? course : null;
      const pitches = framesOf(random, heard, ratio, present.flat(), asked);
      const matches = pitches.map((pitch): Match => matchFrame(pitch, { present, wanted, asked }));
      for (const match of matches) frames.add(kind, course, match, wanted.length);
      plucks.add(kind, course, matches.at(-1) ?? null, wanted.length);
    }
  frames.print(
    'Through sound in noise: every frame from 60 ms after the pluck (kind, signal-to-noise ratio)',
    kinds.map((kind) => `${kind}, 10 dB`),
  );
  plucks.print('The same, by the last frame of each pluck; refused = no frame, or no course', []);
}
