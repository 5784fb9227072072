import { describe, expect, test } from 'vitest';
import {
  breakMarginSemitones,
  breakShare,
  linearDensity,
  slackMarginSemitones,
  tensionNewtons,
  tensionRatio,
} from '#shared/tension/index.ts';
import { hertz, kilogramsPerMetre, type Material, millimetres, newtons } from '#shared/units/index.ts';

const plain = (material: Material, diameterMillimetres: number | null) => ({
  material,
  wound: false,
  diameterMillimetres,
  linearDensityKilogramsPerMetre: null,
});

describe('linear density', () => {
  test('a maker’s figure stands as it is, without a band', () => {
    expect(linearDensity({ ...plain('nylon', 1), linearDensityKilogramsPerMetre: 0.0008 })).toEqual({
      value: 0.0008,
      low: 0.0008,
      high: 0.0008,
    });
  });

  test('plain nylon from its gauge comes with the band that bulk density deserves', () => {
    const density = linearDensity(plain('nylon', 0.71));
    expect(density?.low).toBeLessThan(density?.value ?? 0);
    expect((density?.high ?? 0) / (density?.value ?? 1)).toBeGreaterThan(1.1);
  });

  test('is not known without gauge and figure', () => {
    expect(linearDensity(plain('nylon', null))).toBeNull();
  });
});

describe('margins', () => {
  const soprano = millimetres(350);

  test('depend on the pitch and the scale, never on the gauge', () => {
    const thin = breakMarginSemitones(plain('nylon', 0.5), soprano, hertz(440));
    expect(breakMarginSemitones(plain('nylon', 0.9), soprano, hertz(440))).toBe(thin);
  });

  test('a semitone up takes a semitone of margin', () => {
    const string = plain('fluorocarbon', 0.52);
    const at = (pitch: number) => breakMarginSemitones(string, millimetres(432), hertz(pitch)) ?? Number.NaN;
    expect(at(440) - at(440 * 2 ** (1 / 12))).toBeCloseTo(1, 9);
  });

  test('a baritone strung to A4 is past what a soprano carries at the same pitch', () => {
    const share = (scale: number) => breakShare({ material: 'nylon', wound: false }, millimetres(scale), hertz(440)) ?? 0;
    expect(share(510)).toBeGreaterThan(0.75);
    expect(share(350)).toBeLessThan(0.4);
  });

  test('a wound string’s core is not known, so nothing is claimed', () => {
    expect(breakShare({ material: 'nylon', wound: true }, millimetres(510), hertz(147))).toBeNull();
  });

  test('slack is reached where the pull has fallen to three quarters of the least usual one', () => {
    const string = plain('synthetic-gut', 0.62);
    const pull = tensionNewtons(kilogramsPerMetre(linearDensity(string)?.value ?? 1), soprano, hertz(440));
    const margin = slackMarginSemitones(string, soprano, hertz(440), newtons(22.7)) ?? Number.NaN;
    expect(pull * tensionRatio(-margin)).toBeCloseTo(0.75 * 22.7, 6);
  });
});
