import { course, type InstrumentPreset, plain, workedOut, wound } from './preset.ts';

// Scale lengths: several makers' published measures, rounded to the usual one. Gauges: ordinary published sets for the size.
// Pull per string: least and greatest of 253 published strings (kgf × 9.80665): soprano 2.31–4.55, concert 2.90–4.92, tenor 2.70–6.84,
// baritone 1.50–8.49, as collected in the open data set tkuriyama/uke-strings (BSD-3). Whole sets in the same data: 10.2–16.2, 13.3–17.7, 16.4–24.3
// and 12.7–31.4 kgf.
const soprano = { scaleLengthMillimetres: 350, frets: 12, usualPullNewtons: [22.7, 44.6], usualTotalPullNewtons: [100, 158.9] } as const;
const concert = { scaleLengthMillimetres: 380, frets: 15, usualPullNewtons: [28.4, 48.2], usualTotalPullNewtons: [130.4, 173.6] } as const;
const tenor = { scaleLengthMillimetres: 432, frets: 18, usualPullNewtons: [26.5, 67.1], usualTotalPullNewtons: [160.8, 238.3] } as const;
const baritone = { scaleLengthMillimetres: 510, frets: 18, usualPullNewtons: [14.7, 83.3], usualTotalPullNewtons: [124.5, 307.9] } as const;
const source = 'Encyclopedia article on the ukulele and makers’ published measures and gauges.';

export const ukuleles: readonly InstrumentPreset[] = [
  {
    ...soprano,
    id: 'ukulele-soprano-high-g',
    family: 'ukulele',
    kind: 'soprano, high G',
    courses: [
      course('G4', plain('synthetic-gut', 0.67)),
      course('C4', plain('synthetic-gut', 0.95)),
      course('E4', plain('synthetic-gut', 0.8)),
      course('A4', plain('synthetic-gut', 0.62)),
    ],
    source,
  },
  {
    ...soprano,
    id: 'ukulele-soprano-d6',
    family: 'ukulele',
    kind: 'soprano, D6',
    courses: [
      course('A4', plain('synthetic-gut', 0.6)),
      course('D4', plain('synthetic-gut', 0.87)),
      course('F#4', plain('synthetic-gut', 0.73)),
      course('B4', plain('synthetic-gut', 0.56)),
    ],
    source,
  },
  {
    ...concert,
    id: 'ukulele-concert-high-g',
    family: 'ukulele',
    kind: 'concert, high G',
    courses: [
      course('G4', plain('fluorocarbon', 0.559)),
      course('C4', plain('fluorocarbon', 0.813)),
      course('E4', plain('fluorocarbon', 0.66)),
      course('A4', plain('fluorocarbon', 0.508)),
    ],
    source,
  },
  {
    ...concert,
    id: 'ukulele-concert-low-g',
    family: 'ukulele',
    kind: 'concert, low G',
    courses: [
      course('G3', plain('fluorocarbon', 0.97)),
      course('C4', plain('fluorocarbon', 0.813)),
      course('E4', plain('fluorocarbon', 0.66)),
      course('A4', plain('fluorocarbon', 0.508)),
    ],
    source,
  },
  {
    ...tenor,
    id: 'ukulele-tenor-high-g',
    family: 'ukulele',
    kind: 'tenor, high G',
    courses: [
      course('G4', plain('fluorocarbon', 0.569)),
      course('C4', plain('fluorocarbon', 0.739)),
      course('E4', plain('fluorocarbon', 0.66)),
      course('A4', plain('fluorocarbon', 0.521)),
    ],
    source,
  },
  {
    ...tenor,
    id: 'ukulele-tenor-low-g',
    family: 'ukulele',
    kind: 'tenor, low G',
    courses: [
      course('G3', plain('fluorocarbon', 0.909)),
      course('C4', plain('fluorocarbon', 0.739)),
      course('E4', plain('fluorocarbon', 0.66)),
      course('A4', plain('fluorocarbon', 0.521)),
    ],
    source,
  },
  {
    ...baritone,
    id: 'ukulele-baritone',
    family: 'ukulele',
    kind: 'baritone',
    courses: [
      course('D3', wound('nylon', 0.84, 2.6)),
      course('G3', wound('nylon', 0.66, 1.5)),
      course('B3', plain('synthetic-gut', 0.9)),
      course('E4', plain('synthetic-gut', 0.67)),
    ],
    source,
  },
  {
    ...baritone,
    id: 'ukulele-baritone-high-d',
    family: 'ukulele',
    kind: 'baritone, high D',
    courses: [
      course('D4', plain('synthetic-gut', 0.74)),
      course('G3', wound('nylon', 0.66, 1.5)),
      course('B3', plain('synthetic-gut', 0.9)),
      course('E4', plain('synthetic-gut', 0.67)),
    ],
    source,
  },
  {
    ...tenor,
    id: 'ukulele-tenor-g6',
    family: 'ukulele',
    kind: 'tenor, G6 re-entrant',
    courses: [
      course('D4', plain('fluorocarbon', 0.7)),
      course('G3', wound('nylon', 0.66, 1.5)),
      course('B3', plain('fluorocarbon', 0.84)),
      course('E4', plain('fluorocarbon', 0.63)),
    ],
    source: `${source} ${workedOut(45)}`,
  },
  {
    ...tenor,
    id: 'ukulele-tenor-d6-low-a',
    family: 'ukulele',
    kind: 'tenor, D6 low A',
    courses: [
      course('A3', wound('nylon', 0.55, 1.245)),
      course('D4', plain('synthetic-gut', 0.83)),
      course('F#4', plain('synthetic-gut', 0.66)),
      course('B4', plain('synthetic-gut', 0.49)),
    ],
    source: `${source} ${workedOut(45)} The tuning from memory.`,
  },
  {
    ...baritone,
    id: 'ukulele-baritone-c6',
    family: 'ukulele',
    kind: 'baritone, C6 high G',
    courses: [
      course('G4', plain('synthetic-gut', 0.55)),
      course('C4', plain('synthetic-gut', 0.83)),
      course('E4', plain('synthetic-gut', 0.66)),
      course('A4', plain('synthetic-gut', 0.49)),
    ],
    source: `Makers sell such sets for this size. ${workedOut(50)}`,
  },
];
