import { course, type InstrumentPreset, plain, wound } from './preset.ts';

// Linear densities of an ordinary classical set, from D'Addario's published unit weights (items J4501–J4506, lb/in × 17.858 = kg/m).
export const guitars: readonly InstrumentPreset[] = [
  {
    id: 'guitar-classical',
    family: 'guitar',
    kind: 'guitar, nylon strings',
    scaleLengthMillimetres: 650,
    frets: 19,
    courses: [
      course('E2', wound('nylon', 1.09, 5.47)),
      course('A2', wound('nylon', 0.89, 3.289)),
      course('D3', wound('nylon', 0.74, 1.92)),
      course('G3', { ...plain('nylon', 1.02), linearDensityKilogramsPerMetre: 0.0008356 }),
      course('B3', { ...plain('nylon', 0.82), linearDensityKilogramsPerMetre: 0.0005048 }),
      course('E4', { ...plain('nylon', 0.71), linearDensityKilogramsPerMetre: 0.0003736 }),
    ],
    usualPullNewtons: [51.6, 74],
    source: 'Published string tables for classical guitar; scale length common practice.',
  },
];
