import { describe, expect, test } from 'vitest';
import { babble, mixAt, pluckSound } from '#shared/simulation/sound/index.ts';
import { errorsOf, framesOf, listenTo } from './support.ts';

const sampleRateHertz = 48_000;
const pluckedAtSeconds = 0.4;
const ukulele = [391.995, 261.626, 329.628, 440];

/** A voiced sound of many equal partials with a soft beginning, whose pitch slides: the most string-like part of talk. */
const murmur = (hertz: number, centsPerSecond: number) =>
  Float32Array.from({ length: 0.9 * sampleRateHertz }, (_, index) => {
    const at = index / sampleRateHertz;
    const rise = Math.min(1, at / 0.02);
    const perCent = (centsPerSecond * Math.LN2) / 1200;
    const phase = 2 * Math.PI * hertz * (Math.expm1(perCent * at) / perCent);
    let value = 0;
    for (let partial = 1; partial <= 12; partial++) value += Math.sin(partial * phase + partial ** 2) / partial;
    return 0.05 * rise * Math.exp(-at) * value;
  });

describe('a voice', () => {
  test.each([-200, -120, 90])('that slides by %i cents a second is no string, however sudden it begins', (centsPerSecond) => {
    const sound = new Float32Array(1.4 * sampleRateHertz);
    sound.set(murmur(220, centsPerSecond), 0.3 * sampleRateHertz);
    expect(framesOf(listenTo(sound, { hint: { hertz: ukulele, asked: 1 } }))).toEqual([]);
  });

  test('that talks for long shows no pitch for more than a hundredth of the time', () => {
    let frames = 0;
    for (const seed of [304, 307]) {
      const talk = babble({ seconds: 6, sampleRateHertz, voices: 1, seed }).map((value) => value / 20);
      frames += framesOf(listenTo(talk)).length;
    }
    expect(frames / (2 * 6 * 100)).toBeLessThan(0.01);
  });

  test('nearly as loud as the string does not keep it from being read', () => {
    const shares = [77_031, 77_233].map((seed) => {
      const pluck = pluckSound({ hertz: 675, sampleRateHertz, seconds: 1.6, seed, pluckedAtSeconds, inharmonicity: 1e-4, decaySeconds: 3 });
      const talk = babble({ seconds: 1.6, sampleRateHertz, voices: 1, seed: seed + 3 });
      const events = listenTo(mixAt(pluck.samples, talk, -5, sampleRateHertz), { hint: { hertz: [196, 294, 440, 659], asked: 3 } });
      return errorsOf(events, pluck.truthHertz).filter((error) => Math.abs(error) < 3).length;
    });
    for (const share of shares) expect(share).toBeGreaterThan(30);
  });
});
