import { describe, expect, test } from 'vitest';
import { densityFromUnitWeight, linearDensity, tensionNewtons } from '#shared/tension/index.ts';
import { hertz, midi, midiToHertz, millimetres } from '#shared/units/index.ts';

const poundForce = 4.4482216152605;
const kilogramForce = 9.80665;
const concertPitch = hertz(440);

describe('D’Addario, A complete technical reference for fretted instrument string tensions (tables as extracted in zmoon/stringcalc, MIT)', () => {
  // item, unit weight in lb/in, scale in inches, MIDI number, printed tension in lbf (to a tenth)
  test.each([
    ['PL009', 0.00001794, 25.5, 64, 13.1],
    ['PL010', 0.00002215, 25.5, 64, 16.2],
    ['PL010', 0.00002215, 25.5, 67, 22.9],
    ['PL012', 0.0000319, 25.5, 64, 23.3],
    ['PL013', 0.00003744, 25.5, 59, 15.4],
    ['PL017', 0.00006402, 25.5, 55, 16.6],
    ['PL007', 0.00001085, 25.5, 67, 11.2],
    ['NW024', 0.00010857, 25.5, 50, 15.8],
    ['NW032', 0.00019347, 25.5, 45, 15.8],
    ['NW046', 0.00038216, 25.5, 40, 17.5],
    ['NW060', 0.00066542, 25.5, 35, 17.1],
    ['J4301', 0.00002024, 25.5, 64, 14.8],
    ['J4501', 0.00002092, 25.5, 64, 15.3],
    ['J4502', 0.00002827, 25.5, 59, 11.6],
    ['J4503', 0.00004679, 25.5, 55, 12.1],
    ['J4504', 0.00010754, 25.5, 50, 15.6],
    ['J4505', 0.00018416, 25.5, 45, 15.0],
    ['J4506', 0.00030632, 25.5, 40, 14.0],
    ['J4603', 0.00004795, 25.5, 55, 12.4],
    ['NYL024', 0.00001628, 25.5, 64, 11.9],
    ['NYL028', 0.00002216, 25.5, 64, 16.2],
    ['NYL030', 0.00002543, 25.5, 67, 26.3],
    ['NYL032', 0.00002894, 25.5, 60, 13.3],
    ['NYL030W', 0.00012419, 25.5, 52, 22.7],
    ['J6201', 0.00002215, 13.875, 76, 19.2],
    ['J6202', 0.00004342, 13.875, 69, 16.8],
    ['J6203', 0.00011024, 13.875, 62, 19.0],
    ['J6204', 0.00022308, 13.875, 55, 17.1],
    ['J7401', 0.0000268, 13.875, 76, 23.2],
    ['J7402', 0.00004984, 13.875, 69, 19.2],
    ['J7403', 0.0001355, 13.875, 62, 23.3],
    ['J7404', 0.0003285, 13.875, 55, 25.1],
  ])('%s', (_, unitWeight, inches, note, pounds) => {
    const pull = tensionNewtons(densityFromUnitWeight(unitWeight), millimetres(inches * 25.4), midiToHertz(midi(note), concertPitch));
    expect(Math.abs(pull / poundForce - pounds)).toBeLessThanOrEqual(0.1);
  });
});

describe('Aquila’s printed tensions of ukulele sets (as collected in tkuriyama/uke-strings, BSD-3)', () => {
  // Three of the maker's materials are our synthetic gut: New Nylgut its usual density (1300 kg/m³), Super Nylgut the greatest (1370), Bionylon the least
  // (1150). Set 103U stands with its corrected fourth string of 0.67 mm; the collection has 0.57, which does not give the printed tension.
  const densityOf = { 1300: 'value', 1370: 'high', 1150: 'low' } as const;
  // set and note, density, diameter and scale in millimetres, MIDI number, printed tension in kgf (±0.02)
  test.each([
    ['4U 69', 1300, 0.62, 350, 69, 3.8],
    ['4U 64', 1300, 0.8, 350, 64, 3.55],
    ['4U 60', 1300, 0.95, 350, 60, 3.15],
    ['4U 67', 1300, 0.67, 350, 67, 3.52],
    ['7U 69', 1300, 0.65, 380, 69, 4.92],
    ['7U 64', 1300, 0.82, 380, 64, 4.39],
    ['7U 60', 1300, 0.97, 380, 60, 3.87],
    ['7U 67', 1300, 0.7, 380, 67, 4.53],
    ['10U 69', 1300, 0.67, 430, 69, 6.69],
    ['10U 64', 1300, 0.84, 430, 64, 5.9],
    ['10U 60', 1300, 1.0, 430, 60, 5.27],
    ['10U 67', 1300, 0.73, 430, 67, 6.3],
    ['100U 69', 1370, 0.6, 350, 69, 3.75],
    ['100U 64', 1370, 0.77, 350, 64, 3.46],
    ['100U 60', 1370, 0.92, 350, 60, 3.11],
    ['100U 67', 1370, 0.65, 350, 67, 3.49],
    ['106U 69', 1370, 0.65, 430, 69, 6.64],
    ['106U 64', 1370, 0.82, 430, 64, 5.93],
    ['106U 60', 1370, 0.97, 430, 60, 5.23],
    ['106U 67', 1370, 0.7, 430, 67, 6.11],
    ['63U 69', 1150, 0.72, 430, 69, 6.84],
    ['63U 64', 1150, 0.9, 430, 64, 5.99],
    ['63U 60', 1150, 1.06, 430, 60, 5.24],
    ['63U 67', 1150, 0.77, 430, 67, 6.21],
    ['103U 67', 1370, 0.67, 380, 67, 4.37],
  ] as const)('%s', (_, density, diameterMillimetres, scale, note, kilograms) => {
    const string = { material: 'synthetic-gut', wound: false, diameterMillimetres, linearDensityKilogramsPerMetre: null } as const;
    const pull = tensionNewtons(linearDensity(string)![densityOf[density]], millimetres(scale), midiToHertz(midi(note), concertPitch));
    expect(Math.abs(pull / kilogramForce - kilograms)).toBeLessThanOrEqual(0.02);
  });
});
