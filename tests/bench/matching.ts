// Which course is sounding: every ukulele preset × starter tuning × start, with the course asked for and free, as readings and as sound in noise;
// and what tuning an instrument is in. Run: node src-main/node24.mjs tests/bench/matching.ts [SEED] [CLIPS]. Prints what was measured; asserts nothing.
import { instrumentPresets } from '#shared/instruments/index.ts';
import { matchFrame, type Strings } from '#shared/matching/index.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import { carry, tuningPresets, wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';
import { matchSounds } from './retune/matching-sound.ts';
import { pluckRetunes } from './retune/plucks.ts';
import { emptyTallies } from './retune/tally.ts';
import { pluckTwice } from './retune/two-plucks.ts';
import { nameTunings } from './retune/which-tuning.ts';

const seed = Number(process.argv[2] ?? 20_266);
const clips = Number(process.argv[3] ?? 400);
const random = seededRandom(seed);
/** What a pitch errs by at 10 dB, and what the log does, as sigmas in cents (assumed). */
const heardSigma = 2;
const logSigma = 2;
const reach = 150;
/** Nearer to the edge of reach than this, it is the error that decides. */
const margin = 16;

const centsOff = (heard: number, from: number): number => 1200 * Math.log2(heard / from);
const at = (from: number, cents: number): number => from * 2 ** (cents / 1200);
const noisy = (pitch: number, sigma: number): number => at(pitch, random.normal(sigma));

interface Case {
  readonly home: Strings;
  readonly wanted: Strings;
}

const cases: readonly Case[] = instrumentPresets
  .filter(({ family }) => family === 'ukulele')
  .flatMap(({ courses }) => {
    const pitches = courses.map(({ home }) => home);
    const home = wantedHertz(pitches, null, hertz(440));
    return tuningPresets.flatMap((tuning) => {
      const row = {
        home: tuning.home.map((pitch) => [pitch]),
        courses: tuning.pitches.map((pitch) => ({ pitches: [pitch], offsetCents: 0 })),
      };
      const carried = carry(row, pitches);
      return carried === null ? [] : [{ home, wanted: wantedHertz(carried.pitches, null, hertz(440)) }];
    });
  });

/** Another course stands so near to a sound that only a second pluck can tell, in cents. */
const standing = 35;
const isBeside = (heard: number, present: Strings, course: number): boolean =>
  present.some((strings, other) => other !== course && strings.some((pitch) => Math.abs(centsOff(heard, pitch)) <= standing));

/** How far a pitch lies outside the way of a course. */
function outside(pitch: number, present: readonly number[], wanted: readonly number[]): number {
  return Math.min(
    ...present.map((from, string) => {
      const [a, b] = [centsOff(pitch, from), centsOff(pitch, wanted[string] ?? from)];
      return Math.sign(a) === Math.sign(b) ? Math.min(Math.abs(a), Math.abs(b)) : 0;
    }),
  );
}

const tallies = emptyTallies();

const judge = (kind: string, truth: number, heardHertz: number, context: Parameters<typeof matchFrame>[1]): void =>
  tallies.add(kind, truth, matchFrame(heardHertz, context), context.wanted.length);

for (const { home, wanted } of cases) {
  for (const [course, [aim = 440]] of wanted.entries()) {
    for (let step = -1375; step <= 1375; step += 50) {
      const start = step + random.between(-25, 25);
      // The course asked for starts anywhere; the others are as they were, or where they are wanted already.
      const places = home.map(([pitch = 440], other) => [noisy(random.chance(0.5) ? pitch : (wanted[other]?.[0] ?? pitch), logSigma)]);
      const from = at(aim, start);
      const present = places.map((strings, other) => (other === course ? [noisy(from, logSigma)] : strings));
      for (const share of [0, 0.25, 0.5, 0.75, 1]) {
        const heard = noisy(at(from, -start * share), heardSigma);
        const where = isBeside(heard, present, course) ? ', where another stands' : '';
        judge(`asked, ${share === 0 ? 'at its start' : 'on its way'}${where}`, course, heard, { present, wanted, asked: course });
      }
      for (const past of [-140, -60, 60, 140])
        judge('asked, past its way', course, noisy(at(random.pick([from, aim]), past), heardSigma), { present, wanted, asked: course });
      judge('asked, the log knows nothing of the start', course, noisy(from, heardSigma), { present: places, wanted, asked: course });
      const fret = random.pick([1, 2, 3, 5]);
      const fretted = noisy(at(present[course]?.[0] ?? 440, 100 * fret + random.between(0, 8)), heardSigma);
      if (outside(fretted, present[course] ?? [], wanted[course] ?? []) > 35)
        judge('the asked one, but fretted', -1, fretted, { present, wanted, asked: course });
      const stranger = noisy(at(present[course]?.[0] ?? 440, random.between(-1400, 1400)), heardSigma);
      if (wanted.every((strings, one) => outside(stranger, present[one] ?? [], strings) > reach + margin))
        judge('a sound far off every way', -1, stranger, { present, wanted, asked: course });
      const other = random.pick(wanted.map((_, index) => index).filter((index) => index !== course));
      const plucked = noisy(places[other]?.[0] ?? 440, heardSigma);
      const isHere = Math.abs(centsOff(plucked, present[course]?.[0] ?? 440)) <= standing;
      const isOnWay = outside(plucked, present[course] ?? [], wanted[course] ?? []) < reach + margin;
      const where = isHere ? ', the asked one stands there too: no pitch can tell' : isOnWay ? ', on the asked one’s way' : '';
      judge(`another plucked${where}`, other, plucked, { present, wanted, asked: course });
      if (where === '')
        judge('another plucked, the asked one heard before', other, plucked, {
          present,
          wanted,
          asked: course,
          heard: wanted.map((_, one) => one === course),
        });
    }
    for (let offset = -reach; offset <= reach; offset += 5) {
      for (const near of [home[course]?.[0] ?? 440, aim]) {
        const present = home.map(([pitch = 440]) => [noisy(pitch, logSigma)]);
        const heard = noisy(at(near, offset), heardSigma);
        const others = wanted.filter(
          (strings, other) => other !== course && outside(heard, present[other] ?? [], strings) < reach + margin,
        );
        judge(others.length > 0 ? 'free, in reach of several' : 'free, in reach of one', course, heard, { present, wanted, asked: null });
      }
    }
  }
  for (let trial = 0; trial < 400; trial += 1) {
    const heard = at(440, random.between(-3600, 2400));
    if (home.every((strings, other) => outside(heard, strings, wanted[other] ?? []) > reach + margin))
      judge('free, in reach of none', -1, heard, { present: home, wanted, asked: null });
  }
}

tallies.print(`Which course? ${cases.length} presets × tunings, pitch and log each off by a sigma of ${heardSigma} cents`);
pluckTwice(seed, cases);
pluckRetunes(seed, cases, clips);
nameTunings(seed, cases);
matchSounds(seed, cases, clips);
