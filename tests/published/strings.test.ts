import { describe, expect, test } from 'vitest';
import { instrumentPresets, type InstrumentString } from '#shared/instruments/index.ts';
import {
  breakLimit,
  breakMarginSemitones,
  breakShare,
  breakShareBand,
  densityFromUnitWeight,
  judgeMove,
  linearDensity,
  tensionNewtons,
  tensionRatio,
  woundLinearDensity,
} from '#shared/tension/index.ts';
import { hertz, kilogramsPerMetre, type Material, millimetres, newtons } from '#shared/units/index.ts';

const kilogramForce = 9.80665;
const plain = (material: Material, diameterMillimetres: number): InstrumentString => ({
  material,
  wound: false,
  diameterMillimetres,
  linearDensityKilogramsPerMetre: null,
});
const near = (actual: number, expected: number, tolerance: number): void => {
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(tolerance);
};
/** A string half a metre long, whose frequency is its wave speed: the tension that a wave speed needs. */
const tensionAtSpeed = (density: number, metresPerSecond: number): number =>
  tensionNewtons(kilogramsPerMetre(density), millimetres(500), hertz(metresPerSecond));

describe('OpenStax University Physics 1 (CC BY), chapter 16', () => {
  // Printed to a hundredth or thousandth, so the tension is met to twice that share.
  test.each([
    ['sec. 16.3, high E of a guitar', 0.000309, 427.23, 56.4, 0.002],
    ['sec. 16.3, low E at the same speed', 0.00578, 427.23, 1055, 0.01],
    ['sec. 16.3, a copper wire of 2.40 mm', 0.0403531293, 15.75, 10, 0.026],
    ['sec. 16.3, 3.00 m of 5.00 g', 0.005 / 3, 547.723, 500, 0.002],
  ])('%s', (_, density, speed, tension, tolerance) => {
    near(tensionAtSpeed(density, speed), tension, tolerance);
  });

  test('sec. 16.3: copper wire of 2.40 mm, 8920 kg/m³, weighs 40 g/m', () => {
    near((linearDensity(plain('steel', 2.4))!.value * 8920) / 7806, 0.04, 0.0005);
  });

  test.each([
    [1, 14.29],
    [2, 28.58],
    [3, 42.87],
  ])('sec. 16.6: 2.00 m, 6 g/m, 19.6 N: mode %d at %d Hz', (mode, frequency) => {
    near(tensionNewtons(kilogramsPerMetre(0.006), millimetres(2000), hertz(frequency / mode)), 19.6, 0.028);
  });

  test('sec. 17.6: the tenth modes of two strings at 130 N and 120 N beat 13.9 times a second', () => {
    const [faster, slower] = [353.5533905932738, 339.68311024337874];
    near(tensionNewtons(kilogramsPerMetre(0.0065), millimetres(2000), hertz(faster / 10)), 130, 1e-6);
    near(tensionNewtons(kilogramsPerMetre(0.0065), millimetres(2000), hertz(slower / 10)), 120, 1e-6);
    near(faster - slower, 13.9, 0.05);
  });

  test('L = 4 m, 6 g/m, modes 80 Hz apart: 2457.6 N; the printed answer of 245.76 N is ten times too small', () => {
    near(tensionNewtons(kilogramsPerMetre(0.006), millimetres(4000), hertz(80)), 2457.6, 0.05);
  });
});

describe('linear density', () => {
  test.each([
    ['PL010', 0.00002215, 0.01, 7806],
    ['PL020', 0.00008861, 0.02, 7807],
    ['NYL028', 0.00002216, 0.028, 996],
    ['NYL040', 0.00004522, 0.04, 996],
    ['NYL028W', 0.00010511, 0.028, 4725.0095],
    ['NYL030W', 0.00012419, 0.03, 4863.163],
    ['NYL035W', 0.00020667, 0.035, 5945.8789],
  ])('%s: D’Addario’s unit weight lies in the band of its gauge', (item, unitWeight, inches, effective) => {
    const wound = item.endsWith('W');
    const material = item.startsWith('PL') ? 'steel' : 'nylon';
    const worked = linearDensity({ ...plain(material, inches * 25.4), wound })!;
    const published = densityFromUnitWeight(unitWeight);
    expect(published).toBeGreaterThanOrEqual(worked.low);
    expect(published).toBeLessThanOrEqual(worked.high);
    near((published / worked.value) * (wound ? 5300 : material === 'steel' ? 7806 : 996), effective, 1.5);
  });

  test.each([
    [0.623, 0.52, 1789],
    [0.522, 0.47, 1835],
    [1.007, 0.66, 1795],
    [0.757, 0.57, 1809],
    [1.945, 0.91, 1823],
  ])('weighed fluorocarbon, 1.64 m of %d g, %d mm (quoted in zmoon/stringcalc): %d kg/m³, in our band', (grams, diameter, density) => {
    const worked = linearDensity(plain('fluorocarbon', diameter))!;
    const weighed = grams / 1000 / 1.64;
    expect(weighed).toBeGreaterThan(worked.low);
    expect(weighed).toBeLessThan(worked.high);
    near((1790 * weighed) / worked.value, density, 1.5);
  });

  // Unit weights: D'Addario's tables; core diameters: stepheneb/guitarcompensation; density of the bronze wrap from memory.
  test.each([
    ['PB026', 0.6604, 0.3556, 0.00243583],
    ['PB035', 0.889, 0.381, 0.00452967],
  ])('%s by core and wrap comes within 4 %% of its unit weight', (_, gauge, core, published) => {
    near(woundLinearDensity(gauge, core, 7806, 8800) / published, 1, 0.04);
    const string = { ...plain('steel', gauge), wound: true, coreDiameterMillimetres: core };
    near(linearDensity(string)!.value / published, 1, 0.04);
  });
});

describe('where strings break', () => {
  const limitOf = (material: Material): number => breakLimit({ material, wound: false })!.value;

  test.each<readonly [Material, number, string]>([
    ['nylon', 256.49459, 'musiksaitenrechner.de: 300 MPa, 1140 kg/m³'],
    ['fluorocarbon', 240.16987, 'musiksaitenrechner.de: 413 MPa, 1790 kg/m³'],
    ['steel', 292.32819, 'ASTM A228 table, 0.010 in: least strength 2668 MPa, at 7806 kg/m³'],
    ['gut', 260, 'Aquila: the FL product or breaking index, 240 to 280'],
  ])('%s: %d Hz·m (%s)', (material, expected) => {
    near(limitOf(material), expected, 0.01);
  });

  // ASTM A228 requirements as tabulated on interwiregroup.com: diameter in inches, least tensile strength in Pa.
  test.each([
    [0.009, 2_709_639_501],
    [0.01, 2_668_270_959],
    [0.012, 2_599_323_389],
    [0.016, 2_495_902_034],
  ])('music wire of %d in breaks inside our band for steel', (_, strength) => {
    const product = Math.sqrt(strength / 7806) / 2;
    const limit = breakLimit({ material: 'steel', wound: false })!;
    expect(product).toBeGreaterThan(limit.low);
    expect(product).toBeLessThan(limit.high);
  });

  test('gut at 260 Hz·m carries 351.5 MPa', () => {
    const section = (Math.PI * 0.001 ** 2) / 4;
    near(tensionNewtons(linearDensity(plain('gut', 1))!.value, millimetres(1000), hertz(260)) / section, 351_520_000, 10_000);
  });

  test('Aquila’s worked examples: A4 on a lute of 62 cm is past 260, on 54.5 cm it is at the cautious 240', () => {
    expect(breakShare(plain('gut', 0.4), millimetres(620), hertz(440))).toBeCloseTo((272.8 / 260) ** 2, 9);
    near(breakShareBand(plain('gut', 0.4), millimetres(545), hertz(440))!.high, 1, 0.003);
  });

  test('bulk nylon at 45 MPa (98.9 Hz·m in one string table) would forbid every ukulele; drawn nylon does not', () => {
    expect((0.33 * 440) / 98.9).toBeGreaterThan(1);
    expect(breakShare(plain('nylon', 0.6), millimetres(330), hertz(440))).toBeLessThan(0.55);
  });

  // name, frequency times length in Hz·m, semitones to breaking, semitones to 60 % of the breaking stress: worked out from the nylon limit above
  test.each([
    ['soprano 330 mm A4', 145.288, 9.83984, 5.41805],
    ['soprano 350 mm A4', 154.0, 8.83167, 4.40987],
    ['concert 380 mm A4', 167.2, 7.40793, 2.98614],
    ['tenor 430 mm A4', 189.2, 5.26789, 0.84609],
    ['baritone 510 mm E4', 168.1101, 7.31395, 2.89216],
    ['tenor 432 mm B4 (D6)', 213.2588, 3.19557, -1.22623],
    ['baritone 510 mm A4', 224.4, 2.31396, -2.10783],
    ['guitar 650 mm E4', 214.2579, 3.11465, -1.30714],
  ])('%s: semitones left to breaking and to 60 %% of it, nylon', (_, product, toBreaking, toSixty) => {
    const string = { material: 'nylon', wound: false } as const;
    near(breakMarginSemitones(string, millimetres(1000), hertz(product), 1)!, toBreaking, 0.01);
    near(breakMarginSemitones(string, millimetres(1000), hertz(product), 0.6)!, toSixty, 0.01);
  });
});

describe('tension and pitch', () => {
  test.each([
    [1, 1.1225],
    [2, 1.2599],
    [3, Math.SQRT2],
    [5, 1.7818],
    [6, 2.0],
    [12, 4.0],
    [-2, 0.7937],
    [-5, 0.5612],
    [-12, 0.25],
  ])('%d semitones multiply the tension by %d (T goes with f²)', (semitones, expected) => {
    near(tensionRatio(semitones), expected, 5e-5);
  });

  test('Jourdain 2021: six semitones below breaking a string carries half of what breaks it, three below about 70 %', () => {
    near(tensionRatio(-6), 0.5, 1e-9);
    near(tensionRatio(-3), 0.7, 0.01);
  });

  test.each([
    ['soprano to concert', 13, 15, 1.33136],
    ['concert to tenor', 15, 17, 1.28444],
    ['soprano to tenor', 13, 17, 1.71006],
  ])('the same string from %s: %d to %d inches (ed1.cc)', (_, from, to, expected) => {
    const at = (inches: number) => tensionNewtons(kilogramsPerMetre(0.0004), millimetres(inches * 25.4), hertz(440));
    near(at(to) / at(from), expected, 5e-6);
  });

  test('a high G of 0.67 mm let down an octave pulls 0.88 kgf, under every published soprano string: another string', () => {
    const move = { string: plain('synthetic-gut', 0.67), scaleLength: millimetres(350), from: hertz(391.995), to: hertz(195.998) };
    const judged = judgeMove({ ...move, leastUsualPull: newtons(22.7) });
    near(judged.after!.value / kilogramForce, 0.87975202, 0.002);
    expect(judged.verdict).toBe('another string');
  });
});

describe('usual pull of one string by size (253 published strings as collected in tkuriyama/uke-strings, BSD-3), kgf', () => {
  test.each([
    ['soprano', 2.31, 4.55],
    ['concert', 2.9, 4.92],
    ['tenor', 2.7, 6.84],
    ['baritone', 1.5, 8.49],
  ])('%s: %d to %d', (size, least, most) => {
    const ofSize = instrumentPresets.filter(({ id }) => id.startsWith(`ukulele-${size}`));
    expect(ofSize.length).toBeGreaterThan(0);
    for (const { usualPullNewtons } of ofSize) {
      near(usualPullNewtons![0] / kilogramForce, least, 0.006);
      near(usualPullNewtons![1] / kilogramForce, most, 0.006);
    }
  });
});
