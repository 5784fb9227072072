import { describe, expect, test } from 'vitest';
import { addNoise, babble, mainsHum, mixAt, noise, pluckSound, sumOf } from '#shared/simulation/sound/index.ts';
import { centsBetween, errorsOf, framesOf, listenTo, quantile } from './support.ts';

const sampleRateHertz = 48_000;
const pluckedAtSeconds = 0.4;
const ukulele = [391.995, 261.626, 329.628, 440];

const pluckOf = (hertz: number, seed: number, seconds = 1.4) =>
  pluckSound({ hertz, sampleRateHertz, seconds, seed, pluckedAtSeconds, inharmonicity: 2e-4, decaySeconds: 4 });

/** Noise that falls by 6 dB an octave above 30 Hz. */
const rumble = (length: number, seed: number) => {
  let low = 0;
  return noise({ length, seed }).map((value) => (low = 0.996 * low + 0.05 * value));
};

const shareWithin = (errors: readonly number[], limitCents: number) =>
  errors.filter((error) => Math.abs(error) <= limitCents).length / errors.length;

describe('in a room', () => {
  test.each([50, 60])('hum of %i Hz as loud as the string is not read, and does not move the string', (mainsHertz) => {
    const pluck = pluckOf(261.6, 21);
    const hum = mainsHum({ seconds: 1.4, sampleRateHertz, mainsHertz, seed: 3 });
    const events = listenTo(mixAt(pluck.samples, hum, 0, sampleRateHertz));
    expect(framesOf(events).filter((frame) => frame.atSeconds < pluckedAtSeconds)).toEqual([]);
    expect(quantile(errorsOf(events, pluck.truthHertz), 0.95)).toBeLessThan(0.5);
  });

  test('hum alone is refused as hum', () => {
    const hum = mainsHum({ seconds: 1.5, sampleRateHertz, mainsHertz: 50, seed: 4 }).map((value) => value / 10);
    const events = listenTo(hum);
    expect(framesOf(events)).toEqual([]);
    expect(events.some((event) => event.kind === 'refusal' && event.reason === 'hum')).toBe(true);
  });

  test('hum that begins while it is listened to, as when a lamp is switched on, is known for hum within two seconds', () => {
    for (const mainsHertz of [50, 60]) {
      const hum = mainsHum({ seconds: 4, sampleRateHertz, mainsHertz, seed: 6 }).map((value) => value / 10);
      const room = noise({ length: 5 * sampleRateHertz, seed: 7 }).map((value) => value / 10_000);
      hum.forEach((value, index) => (room[sampleRateHertz + index]! += value));
      const events = listenTo(room, { hint: { hertz: ukulele, asked: 1 } });
      const late = events.filter(({ atSeconds }) => atSeconds > 3);
      expect(framesOf(late)).toEqual([]);
      expect(late.some((event) => event.kind === 'refusal' && event.reason === 'hum')).toBe(true);
    }
  });

  test.each([49, 100.05, 60.02])('a string at %f Hz that dies slowly is heard to its end, mains or not', (hertz) => {
    const pluck = pluckSound({ hertz, sampleRateHertz, seconds: 4, seed: 8, pluckedAtSeconds, inharmonicity: 1e-4, decaySeconds: 8 });
    const events = listenTo(addNoise(pluck.samples, { ratioDecibels: 50, sampleRateHertz, seed: 9 }), {
      hint: { hertz: [hertz], asked: 0 },
    });
    const late = framesOf(events).filter(({ atSeconds }) => atSeconds > 1);
    expect(late.length).toBeGreaterThan(140);
    expect(quantile(errorsOf(late, pluck.truthHertz), 0.95)).toBeLessThan(1);
  });

  test('noise alone is never a string', () => {
    for (const seed of [1, 2, 3]) {
      const hiss = noise({ length: 96_000, seed, colour: seed === 3 ? 'pink' : 'white' }).map((value) => value * 0.05);
      expect(framesOf(listenTo(hiss, { hint: { hertz: ukulele, asked: 1 } }))).toEqual([]);
    }
  });

  test('noise as loud as the string leaves its pitch within two cents', () => {
    const pluck = pluckOf(329.6, 22);
    const noisy = addNoise(pluck.samples, { ratioDecibels: 0, sampleRateHertz, seed: 5 });
    expect(quantile(errorsOf(listenTo(noisy), pluck.truthHertz), 0.95)).toBeLessThan(2);
  });

  test('the rumble of a street, louder than the string, does not hide that it was plucked', () => {
    const shares = [61, 62, 63, 64].map((seed) => {
      const pluck = pluckOf(ukulele[seed % 4]!, seed);
      const events = listenTo(mixAt(pluck.samples, rumble(pluck.samples.length, seed), 4, sampleRateHertz));
      return framesOf(events).filter((frame) => Math.abs(centsBetween(frame.hertz, pluck.truthHertz(frame.atSeconds))) < 3).length / 60;
    });
    for (const share of shares) expect(share).toBeGreaterThan(0.8);
  });

  test('talk is not taken for a string, and a string is read under it', () => {
    const early: number[] = [];
    const errors: number[] = [];
    for (const seed of [31, 32, 33, 34]) {
      const pluck = pluckOf(ukulele[seed % 4]!, seed);
      const talk = babble({ seconds: 1.4, sampleRateHertz, voices: 1, seed });
      const events = listenTo(mixAt(pluck.samples, talk, -15, sampleRateHertz), { hint: { hertz: ukulele, asked: seed % 4 } });
      early.push(framesOf(events).filter((frame) => frame.atSeconds < pluckedAtSeconds).length);
      errors.push(
        ...errorsOf(
          framesOf(events).filter((frame) => frame.atSeconds > 0.55),
          pluck.truthHertz,
        ),
      );
    }
    expect(early).toEqual([0, 0, 0, 0]);
    expect(shareWithin(errors, 3)).toBeGreaterThan(0.95);
  });

  test('talk that goes on and on, louder and softer, gives no pitch without a pluck', () => {
    const shown = [71_372, 71_589, 71_868, 71_930].map((seed) => {
      const talk = babble({ seconds: 1.2, sampleRateHertz, voices: 1 + (seed % 2), seed }).map((value) => value / 10);
      return framesOf(listenTo(talk, { hint: { hertz: ukulele, asked: 1 } })).length;
    });
    expect(shown).toEqual([0, 0, 0, 0]);
  });

  test('strings that ring already do not disturb the one that is plucked', () => {
    const ringing = [0, 1, 3].map((index) =>
      pluckSound({ hertz: ukulele[index]!, sampleRateHertz, seconds: 1.4, seed: 40 + index, pluckedAtSeconds: 0.02, decaySeconds: 5 }),
    );
    const pluck = pluckOf(329.6, 44);
    const mixed = mixAt(pluck.samples, sumOf(ringing.map((sound) => sound.samples)), -10, sampleRateHertz);
    const after = framesOf(listenTo(mixed)).filter((frame) => frame.atSeconds > pluckedAtSeconds + 0.1);
    expect(after.length).toBeGreaterThan(20);
    expect(shareWithin(errorsOf(after, pluck.truthHertz), 1)).toBeGreaterThan(0.98);
  });

  test('a microphone that loses the first partial does not make an octave error', () => {
    const pluck = pluckSound({ hertz: 110, sampleRateHertz, seconds: 1.4, seed: 45, pluckedAtSeconds, weakFundamentalDecibels: 45 });
    expect(quantile(errorsOf(listenTo(pluck.samples), pluck.truthHertz), 1)).toBeLessThan(5);
  });
});

describe('pluck after pluck', () => {
  test('the octave above, still ringing a few cents off, does not pull at the string that is plucked', () => {
    for (const [seed, cents] of [
      [51, -6],
      [52, 6],
    ] as const) {
      const pluck = pluckSound({
        hertz: 293.7,
        sampleRateHertz,
        seconds: 1.8,
        seed,
        pluckedAtSeconds,
        inharmonicity: 2e-4,
        decaySeconds: 1.5,
      });
      const above = 2 * 293.7 * 2 ** (cents / 1200);
      const octave = pluckSound({ hertz: above, sampleRateHertz, seconds: 1.8, seed: seed + 10, pluckedAtSeconds: 0.03, decaySeconds: 6 });
      const events = listenTo(mixAt(pluck.samples, octave.samples, -12, sampleRateHertz));
      const frames = framesOf(events).filter((frame) => frame.atSeconds > 0.6);
      expect(frames.length).toBeGreaterThan(20);
      expect(quantile(errorsOf(frames, pluck.truthHertz), 0.95)).toBeLessThan(0.5);
    }
  });

  test('the same string, a little higher each time, is read anew each time', () => {
    const plucks = [0, 1, 2].map((index) => {
      const at = 0.3 + index * 0.9;
      const pluck = pluckSound({ hertz: 261.6 * 2 ** (index / 200), sampleRateHertz, seconds: 3, seed: 50 + index, pluckedAtSeconds: at });
      const stopped = pluck.samples.map((value, sample) => (index < 2 && sample > (at + 0.9) * sampleRateHertz ? 0 : value));
      return { at, pluck, stopped };
    });
    const frames = framesOf(listenTo(sumOf(plucks.map((entry) => entry.stopped))));
    for (const { at, pluck } of plucks) {
      const own = frames.filter((frame) => frame.atSeconds > at + 0.1 && frame.atSeconds < at + 0.9);
      expect(own.length).toBeGreaterThan(20);
      expect(quantile(errorsOf(own, pluck.truthHertz), 1)).toBeLessThan(0.5);
    }
  });
});

describe('a double course', () => {
  test.each([3, 57])('whose other string rings on, %i cents away and less stiff, is read at the string that is plucked', (apartCents) => {
    const pluck = pluckOf(392, 71);
    const other = pluckSound({
      hertz: 392 * 2 ** (apartCents / 1200),
      sampleRateHertz,
      seconds: 1.4,
      seed: 72,
      inharmonicity: 8e-5,
      decaySeconds: 5,
    });
    const both = mixAt(pluck.samples, other.samples, -12, sampleRateHertz);
    const events = listenTo(both, { hint: { hertz: [392, 392], asked: 0 } });
    const own = framesOf(events).filter((frame) => frame.atSeconds > pluckedAtSeconds + 0.15);
    expect(own.length).toBeGreaterThan(30);
    expect(quantile(errorsOf(own, pluck.truthHertz), 0.95)).toBeLessThan(1);
  });

  test('gives both its strings once they have rung for a while', () => {
    const [low, high] = [0, 6].map((cents, index) =>
      pluckSound({ hertz: 440 * 2 ** (cents / 1200), sampleRateHertz, seconds: 2, seed: 60 + index, pluckedAtSeconds: 0.1 + 0.01 * index }),
    );
    const both = addNoise(sumOf([low!.samples, high!.samples]), { ratioDecibels: 40, sampleRateHertz, seed: 6 });
    const frames = framesOf(listenTo(both, { hint: { hertz: [440, 440], asked: 0 } })).filter((frame) => frame.others.length > 0);
    expect(frames.length).toBeGreaterThan(10);
    for (const frame of frames.slice(0, 10)) {
      const heard = [frame.hertz, frame.others[0]!.hertz].sort((left, right) => left - right);
      expect(Math.abs(centsBetween(heard[0]!, 440))).toBeLessThan(1.5);
      expect(Math.abs(centsBetween(heard[1]!, 440) - 6)).toBeLessThan(1.5);
    }
  });
});
