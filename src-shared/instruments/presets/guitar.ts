import { course, type InstrumentPreset, plain, pullNotPublished, steel, workedOut, wound, woundSteel } from './preset.ts';

const steelGuitar = { family: 'guitar', scaleLengthMillimetres: 648, frets: 20 } as const;
const tenorGuitar = { family: 'guitar', scaleLengthMillimetres: 580, frets: 19, ...pullNotPublished } as const;

/** Unit weights of a classical set, heaviest first: linear densities from D'Addario's tables (items J4501–J4506, lb/in × 17.858 = kg/m). */
const classical = {
  sixth: wound('nylon', 1.09, 5.47),
  fifth: wound('nylon', 0.89, 3.289),
  fourth: wound('nylon', 0.74, 1.92),
  third: { ...plain('nylon', 1.02), linearDensityKilogramsPerMetre: 0.0008356 },
  second: { ...plain('nylon', 0.82), linearDensityKilogramsPerMetre: 0.0005048 },
  first: { ...plain('nylon', 0.71), linearDensityKilogramsPerMetre: 0.0003736 },
} as const;

export const guitars: readonly InstrumentPreset[] = [
  {
    id: 'guitar-classical',
    family: 'guitar',
    kind: 'guitar, nylon strings',
    scaleLengthMillimetres: 650,
    frets: 19,
    courses: [
      course('E2', classical.sixth),
      course('A2', classical.fifth),
      course('D3', classical.fourth),
      course('G3', classical.third),
      course('B3', classical.second),
      course('E4', classical.first),
    ],
    usualPullNewtons: [51.6, 74],
    usualTotalPullNewtons: null,
    source: 'Published string tables for classical guitar; scale length common practice.',
  },
  {
    ...steelGuitar,
    id: 'guitar-steel',
    kind: 'guitar, steel strings',
    // Linear densities from D'Addario's tables, items PL010, PL013, PL017, NW024, NW032, NW046.
    courses: [
      course('E2', wound('steel', 1.168, 6.8247)),
      course('A2', wound('steel', 0.813, 3.455)),
      course('D3', wound('steel', 0.61, 1.9389)),
      course('G3', { ...steel(0.017), linearDensityKilogramsPerMetre: 0.0011433 }),
      course('B3', { ...steel(0.013), linearDensityKilogramsPerMetre: 0.0006686 }),
      course('E4', { ...steel(0.01), linearDensityKilogramsPerMetre: 0.0003956 }),
    ],
    usualPullNewtons: [58.2, 103.7],
    usualTotalPullNewtons: null,
    source: 'D’Addario’s tables of string tensions at 25.5 inches, 13.1 to 23.3 lbf a string for the items looked up.',
  },
  {
    ...steelGuitar,
    id: 'guitar-twelve-string',
    kind: '12-string guitar',
    ...pullNotPublished,
    courses: [
      course('E3 E2', woundSteel(0.02), woundSteel(0.041)),
      course('A3 A2', steel(0.015), woundSteel(0.03)),
      course('D4 D3', steel(0.011), woundSteel(0.023)),
      course('G4 G3', steel(0.008), woundSteel(0.017)),
      course('B3 B3', steel(0.013)),
      course('E4 E4', steel(0.01)),
    ],
    source: `Pitches from python-mingus; the upper strings of the pairs an octave higher, common practice. ${workedOut(70)}`,
  },
  {
    id: 'guitar-guitalele',
    family: 'guitar',
    kind: 'guitalele or requinto',
    scaleLengthMillimetres: 433,
    frets: 18,
    ...pullNotPublished,
    courses: [
      course('A2', classical.sixth),
      course('D3', classical.fifth),
      course('G3', classical.fourth),
      course('C4', classical.third),
      course('E4', classical.second),
      course('A4', classical.first),
    ],
    source: 'Pitches from python-mingus; scale length from memory; an ordinary classical set a fourth higher is common practice.',
  },
  {
    ...tenorGuitar,
    id: 'guitar-tenor',
    kind: 'tenor guitar, fifths',
    courses: [course('C3', woundSteel(0.032)), course('G3', woundSteel(0.021)), course('D4', steel(0.014)), course('A4', steel(0.009))],
    source: `Pitches from python-mingus and MuseScore 3.2.3 data (tenor banjo); scale length from memory. ${workedOut(85)}`,
  },
  {
    ...tenorGuitar,
    id: 'guitar-tenor-like-guitar',
    kind: 'tenor guitar, D G B E',
    courses: [course('D3', woundSteel(0.028)), course('G3', woundSteel(0.021)), course('B3', steel(0.016)), course('E4', steel(0.012))],
    source: `Pitches and scale length from memory. ${workedOut(85)}`,
  },
  {
    ...tenorGuitar,
    id: 'guitar-tenor-octave',
    kind: 'tenor guitar, G D A E',
    courses: [course('G2', woundSteel(0.042)), course('D3', woundSteel(0.028)), course('A3', steel(0.018)), course('E4', steel(0.012))],
    source: `Pitches from memory and MuseScore 3.2.3 data (Irish tenor banjo); scale length from memory. ${workedOut(85)}`,
  },
];
