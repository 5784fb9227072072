import { readStrum } from '#shared/pitch/index.ts';
import { addNoise, pluckSound, sumOf } from '#shared/simulation/sound/index.ts';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { sampleRateHertz } from './clip.ts';
import { goalOfStrums } from './goals.ts';
import { quantile } from './score.ts';
import { head, percent, row } from './table.ts';

/** Strummed instruments; a course of two strings is tuned within ±5 cents of itself, single strings within ±30. */
const strums: Record<string, readonly (readonly number[])[]> = {
  're-entrant ukulele': [[391.995], [261.626], [329.628], [440]],
  'low-G ukulele': [[195.998], [261.626], [329.628], [440]],
  baritone: [[146.832], [195.998], [246.942], [329.628]],
  'G4 beside G4': [[391.995], [261.626], [329.628], [391.995]],
  mandolin: [195.998, 293.665, 440, 659.255].map((hertz) => [hertz, hertz]),
  charango: [
    [391.995, 391.995],
    [523.251, 523.251],
    [659.255, 329.628],
    [440, 440],
    [659.255, 659.255],
  ],
};

const seconds = 1.3;
/** Strings of one expected pitch by how far the nearest other one is, in cents: up to each of these. */
const apartUpTo = [1, 2, Infinity];

/** Errors in cents, errors over sigma, refusals by reason, those of unisons by how far they are apart, and mean milliseconds of `clips` strums in noise 30 dB below. */
const measureStrums = (courses: readonly (readonly number[])[], clips: number, seed: number) => {
  const generator = xoroshiro128plus(seed);
  const uniform = (low: number, high: number) => low + (high - low) * uniformFloat64(generator);
  const errors: number[] = [];
  const ratios: number[] = [];
  const refusals = new Map<string, number>();
  const apart = apartUpTo.map(() => ({ strings: 0, refused: 0 }));
  let milliseconds = 0;
  for (let clip = 0; clip < clips; clip++) {
    let at = 0.1;
    const truths = courses.map((course) => course.map((hertz) => hertz * 2 ** (uniform(-1, 1) * ((course.length > 1 ? 5 : 30) / 1200))));
    const sounds = truths.flat().map((hertz) => {
      at += uniform(0.005, 0.03);
      const more = {
        inharmonicity: 10 ** uniform(-4.3, -3.4),
        decaySeconds: uniform(2, 5),
        amplitude: uniform(0.1, 0.25),
        glideCents: uniform(0, 2),
      };
      return pluckSound({ hertz, sampleRateHertz, seconds, seed: Math.floor(uniform(1, 1e6)), pluckedAtSeconds: at, ...more }).samples;
    });
    const samples = addNoise(sumOf(sounds), { ratioDecibels: 30, sampleRateHertz, seed: seed + clip });
    const started = performance.now();
    const readings = readStrum(samples, { sampleRateHertz, courses }).flat();
    milliseconds += (performance.now() - started) / clips;
    const wanted = courses.flat();
    for (const hertz of new Set(wanted)) {
      // Strings of one expected pitch cannot be named: in rising order where all of them were read, else each against the nearest.
      const places = wanted.flatMap((other, index) => (other === hertz ? [index] : []));
      const same = places.map((place) => truths.flat()[place] ?? Number.NaN).sort((left, right) => left - right);
      const heard = places.flatMap((place) => {
        const reading = readings[place];
        if (reading === undefined || 'refusal' in reading) {
          const reason = reading?.refusal ?? 'missing';
          refusals.set(reason, (refusals.get(reason) ?? 0) + 1);
          return [];
        }
        return [reading];
      });
      const nearest = Math.min(...same.slice(1).map((high, index) => 1200 * Math.log2(high / (same[index] ?? Number.NaN))));
      const group = same.length > 1 ? apart[apartUpTo.findIndex((limit) => nearest <= limit)] : undefined;
      if (group !== undefined) {
        group.strings += places.length;
        group.refused += places.length - heard.length;
      }
      heard.sort((left, right) => left.hertz - right.hertz);
      for (const [index, reading] of heard.entries()) {
        const candidates = heard.length === same.length ? same.slice(index, index + 1) : same;
        const error = Math.min(...candidates.map((truth) => Math.abs(1200 * Math.log2(reading.hertz / truth))));
        errors.push(error);
        ratios.push(error / reading.sigmaCents);
      }
    }
  }
  return { errors, ratios, refusals, apart, milliseconds };
};

/** Prints how well strums are read, and what is refused and why. */
export const strumTable = (clips: number, seed: number) => {
  console.log(`\nstrums of ${seconds} s in noise 30 dB below, ${clips} of each; strings of one expected pitch in rising order`);
  head(['strum', 'median / 95th c', 'in 1σ / 2σ', 'refused', 'of unisons up to 1 / up to 2 / further than 2 c apart', 'ms', 'goal']);
  for (const [name, courses] of Object.entries(strums)) {
    const { errors, ratios, refusals, apart, milliseconds } = measureStrums(courses, clips, seed);
    const inside = (limit: number) => percent(ratios.filter((ratio) => ratio <= limit).length / ratios.length);
    const refused = [...refusals].map(([reason, count]) => `${reason} ${percent(count / (courses.flat().length * clips))}`).join(', ');
    const goal = courses.every((course) => course.length === 1) && new Set(courses.flat()).size === courses.length ? goalOfStrums : '–';
    row([
      name,
      [0.5, 0.95].map((share) => quantile(errors, share).toFixed(2)).join(' / '),
      `${inside(1)} / ${inside(2)}`,
      refused || '–',
      apart.some(({ strings }) => strings > 0) ? apart.map((group) => percent(group.refused / group.strings)).join(' / ') : '–',
      milliseconds.toFixed(0),
      goal,
    ]);
  }
};
