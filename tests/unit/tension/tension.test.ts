import { describe, expect, test } from 'vitest';
import {
  breakLimit,
  breakMarginSemitones,
  breakShare,
  breakShareBand,
  densityFromPull,
  linearDensity,
  slackMarginSemitones,
  tensionNewtons,
  tensionRatio,
  woundLinearDensity,
} from '#shared/tension/index.ts';
import { hertz, kilogramsPerMetre, type Material, materials, millimetres, newtons } from '#shared/units/index.ts';

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

  test('of a wound steel string follows its core where that is known, with a narrower band', () => {
    const string = { ...plain('steel', 0.6604), wound: true };
    const [bulk, byCore] = [linearDensity(string)!, linearDensity({ ...string, coreDiameterMillimetres: 0.3556 })!];
    expect((byCore.high - byCore.low) / byCore.value).toBeLessThan((bulk.high - bulk.low) / bulk.value);
    expect(byCore.value / bulk.value).toBeCloseTo(1, 1);
  });

  test('a core as thick as the string is no core', () => {
    expect(() => woundLinearDensity(0.5, 0.5, 7806, 8800)).toThrow(RangeError);
  });

  test('a rated tension and the density that it comes from are one and the same', () => {
    const density = kilogramsPerMetre(0.0004);
    const pull = tensionNewtons(density, millimetres(350), hertz(440));
    expect(densityFromPull(pull, millimetres(350), hertz(440))).toBeCloseTo(density, 12);
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

  test('a wound string with a known core breaks by its core, which carries the wrap along', () => {
    const string = { ...plain('steel', 0.6604), wound: true, coreDiameterMillimetres: 0.3556 };
    const limit = breakLimit(string)!;
    const stressAt = (product: number): number =>
      tensionNewtons(linearDensity(string)!.value, millimetres(1000), hertz(product)) / ((Math.PI * 0.0003556 ** 2) / 4);
    const plainStress = 7806 * (2 * breakLimit(plain('steel', 0.3556))!.value) ** 2;
    expect(stressAt(limit.value) / plainStress).toBeCloseTo(1, 9);
    expect(limit.value).toBeLessThan(breakLimit(plain('steel', 0.3556))!.value);
  });

  test.each(materials)('the limit of %s is a band around its usual value', (material) => {
    const limit = breakLimit({ material, wound: false })!;
    expect(limit.low).toBeLessThan(limit.value);
    expect(limit.high).toBeGreaterThan(limit.value);
    const share = breakShareBand({ material, wound: false }, soprano, hertz(440))!;
    expect([share.low < share.value, share.value < share.high]).toEqual([true, true]);
  });

  test('slack is reached where the pull has fallen to three quarters of the least usual one', () => {
    const string = plain('synthetic-gut', 0.62);
    const pull = tensionNewtons(kilogramsPerMetre(linearDensity(string)?.value ?? 1), soprano, hertz(440));
    const margin = slackMarginSemitones(string, soprano, hertz(440), newtons(22.7)) ?? Number.NaN;
    expect(pull * tensionRatio(-margin)).toBeCloseTo(0.75 * 22.7, 6);
  });
});
