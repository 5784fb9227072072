import { describe, expect, test } from 'vitest';
import { instrumentPresets } from '#shared/instruments/index.ts';
import { createPitchTracker } from '#shared/pitch/index.ts';
import { drawPlayer } from '#shared/simulation/player/index.ts';
import { createSounding, type EarGuide, playByEar } from '#shared/simulation/sounding/index.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';

const sampleRateHertz = 24_000;
const ukulele = instrumentPresets.find(({ family }) => family === 'ukulele')!;
const make = (seed = 5) =>
  createSounding({
    scaleLengthMillimetres: ukulele.scaleLengthMillimetres,
    courses: ukulele.courses,
    presentHertz: [[392], [261.6], [329.6], [440]],
    daysSinceChange: 60,
    sampleRateHertz,
    seed,
  });
const cents = (a: number, b: number): number => 1200 * Math.log2(a / b);
const energy = (samples: Float32Array): number => samples.reduce((sum, value) => sum + value * value, 0) / samples.length;

/** The last pitch that a tracker reads in so many seconds of an instrument. */
function read(sounding: ReturnType<typeof make>, seconds: number): number {
  const tracker = createPitchTracker({ sampleRateHertz, hint: { hertz: [392, 261.6, 329.6, 440], asked: null } });
  const frames = tracker.push(sounding.next(seconds * sampleRateHertz)).filter((event) => event.kind === 'frame');
  return frames.at(-1)?.hertz ?? Number.NaN;
}

describe('the virtual instrument as sound', () => {
  test('sounds the pitch that its string has, while the peg is turned and after', () => {
    const uke = make();
    uke.pluck(3);
    expect(Math.abs(cents(read(uke, 0.8), uke.hertz(3, 0)))).toBeLessThan(0.5);
    uke.turnPeg(3, 0, -120);
    uke.pluck(3);
    expect(Math.abs(cents(read(uke, 1), uke.hertz(3, 0)))).toBeLessThan(2);
    expect(uke.isTurning()).toBe(true);
    read(uke, 2);
    expect(uke.isTurning()).toBe(false);
    expect(cents(uke.hertz(3, 0), 440)).toBeLessThan(-105);
    expect(cents(uke.hertz(0, 0), 392)).toBeGreaterThan(0);
  });

  test('rings on until it is damped, is quiet before it is plucked, and never clips in a strum', () => {
    const uke = make();
    const quiet = energy(uke.next(4800));
    uke.strum();
    const strum = uke.next(sampleRateHertz);
    expect(Math.max(...strum.map(Math.abs))).toBeLessThan(0.95);
    expect(energy(uke.next(4800))).toBeGreaterThan(1000 * quiet);
    uke.damp();
    uke.next(6000);
    expect(energy(uke.next(4800))).toBeLessThan(4 * quiet);
  });

  test('is the same again from the same seed, whatever the size of the blocks', () => {
    const [one, other] = [make(9), make(9)];
    for (const uke of [one, other]) uke.pluck(1);
    expect(one.next(2560)).toEqual(other.next(2560));
    expect(make(10).next(100)).not.toEqual(make(9).next(100));
  });

  test('refuses a string that it has not', () => {
    expect(() => make().turnPeg(4, 0, 5)).toThrow('no string 0 on course 4');
  });
});

describe('a player who goes by ear', () => {
  test('brings a string to where the guide’s ear wants it', () => {
    const uke = make();
    const random = seededRandom(4);
    const aim = 440 * 2 ** (-70 / 1200);
    const tracker = createPitchTracker({ sampleRateHertz, hint: { hertz: [392, 261.6, 329.6, 440], asked: 3 } });
    let heard = 440;
    const guide: EarGuide = {
      listen: (samples) => {
        for (const event of tracker.push(samples)) if (event.kind === 'frame' && event.steady) heard = event.hertz;
      },
      ask: () => (Math.abs(cents(heard, aim)) < 3 ? null : { place: 3, turnCents: cents(aim, heard) }),
    };
    const outcome = playByEar(random, uke, { ...drawPlayer(random), dampChance: 1 }, guide, (place) => [place, 0]);
    expect(outcome).toMatchObject({ isDone: true });
    expect(Math.abs(cents(uke.hertz(3, 0), aim))).toBeLessThan(6);
  });
});
