import { describe, expect, test } from 'vitest';
import { breakMarginSemitones, linearDensity, tensionNewtons, tensionRatio } from '#shared/tension/index.ts';
import { hertz, kilogramsPerMetre, midi, midiToHertz, millimetres } from '#shared/units/index.ts';

const poundForce = 4.4482216152605;
const kilogramForce = 9.80665;

describe('D’Addario, complete technical reference for fretted instrument string tensions (tables as extracted in zmoon/stringcalc, MIT)', () => {
  // item, unit weight in lb/in, scale in inches, MIDI number, printed tension in lbf (±0.1)
  test.each([
    ['PL009', 0.00001794, 25.5, 64, 13.1],
    ['PL010', 0.00002215, 25.5, 64, 16.2],
    ['PL012', 0.0000319, 25.5, 64, 23.3],
    ['PL017', 0.00006402, 25.5, 55, 16.6],
    ['NW024', 0.00010857, 25.5, 50, 15.8],
    ['NW046', 0.00038216, 25.5, 40, 17.5],
    ['J4501', 0.00002092, 25.5, 64, 15.3],
    ['J4503', 0.00004679, 25.5, 55, 12.1],
    ['J4506', 0.00030632, 25.5, 40, 14],
    ['NYL024', 0.00001628, 25.5, 64, 11.9],
    ['NYL032', 0.00002894, 25.5, 60, 13.3],
    ['J6201', 0.00002215, 13.875, 76, 19.2],
    ['J6203', 0.00011024, 13.875, 62, 19],
  ])('%s', (_, unitWeight, inches, note, pounds) => {
    const density = kilogramsPerMetre((unitWeight * 0.45359237) / 0.0254);
    const pull = tensionNewtons(density, millimetres(inches * 25.4), midiToHertz(midi(note), hertz(440)));
    expect(Math.abs(pull / poundForce - pounds)).toBeLessThanOrEqual(0.1);
  });
});

describe('Aquila’s printed tensions for a soprano set, 350 mm (as collected in tkuriyama/uke-strings, BSD-3)', () => {
  test.each([
    [0.62, 69, 3.8],
    [0.8, 64, 3.55],
    [0.95, 60, 3.15],
    [0.67, 67, 3.52],
  ])('%d mm at note %d pulls %d kgf', (diameterMillimetres, note, kilograms) => {
    const density = linearDensity({ material: 'synthetic-gut', wound: false, diameterMillimetres, linearDensityKilogramsPerMetre: null });
    const pull = tensionNewtons(density!.value, millimetres(350), midiToHertz(midi(note), hertz(440)));
    expect(Math.abs(pull / kilogramForce / kilograms - 1)).toBeLessThan(0.004);
  });
});

describe('Jourdain 2021, on stringing at a share of the breaking stress', () => {
  test('six semitones below breaking a string carries half of what breaks it, three below about 70 %', () => {
    expect(tensionRatio(-6)).toBe(0.5);
    expect(tensionRatio(-3)).toBeCloseTo(0.7, 1);
  });
});

describe('semitones to breaking, nylon (300 MPa, 1140 kg/m³: 256 Hz·m; computed from the published limit)', () => {
  test.each([
    ['soprano 350 mm A4', 350, 440, 8.8],
    ['concert 380 mm A4', 380, 440, 7.4],
    ['tenor 430 mm A4', 430, 440, 5.3],
    ['baritone 510 mm E4', 510, 329.628, 7.3],
    ['guitar 650 mm E4', 650, 329.628, 3.1],
  ])('%s', (_, scale, pitch, semitones) => {
    expect(breakMarginSemitones({ material: 'nylon', wound: false }, millimetres(scale), hertz(pitch), 1)).toBeCloseTo(semitones, 1);
  });
});

describe('OpenStax University Physics 1 (CC BY)', () => {
  test('L = 4 m, 6 g/m, 80 Hz apart: 2457.6 N; the printed answer of 245.76 N is ten times too small', () => {
    expect(tensionNewtons(kilogramsPerMetre(0.006), millimetres(4000), hertz(80))).toBeCloseTo(2457.6, 1);
  });
});
