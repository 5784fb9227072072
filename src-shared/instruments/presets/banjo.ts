import { course, type InstrumentPreset, pullNotPublished, steel, workedOut, woundSteel } from './preset.ts';

// D'Addario's legend gives 26.25 inches for the banjo, its figures follow from 26.5 (673 mm). The fifth string begins at the fifth fret.
const long = { family: 'banjo', scaleLengthMillimetres: 667, frets: 22, ...pullNotPublished } as const;
const shortMillimetres = Number((long.scaleLengthMillimetres * 2 ** (-5 / 12)).toFixed(1));

export const banjos: readonly InstrumentPreset[] = [
  {
    ...long,
    id: 'banjo-five-string',
    kind: '5-string banjo',
    courses: [
      { ...course('G4', steel(0.01)), scaleLengthMillimetres: shortMillimetres },
      course('D3', woundSteel(0.021)),
      course('G3', steel(0.015)),
      course('B3', steel(0.012)),
      course('D4', steel(0.01)),
    ],
    source: `Pitches from python-mingus, D’Addario’s tables, LilyPond 2.24.1 and MuseScore 3.2.3 data. ${workedOut(60)}`,
  },
  {
    ...long,
    id: 'banjo-tenor',
    kind: 'tenor banjo',
    scaleLengthMillimetres: 580,
    frets: 19,
    courses: [course('C3', woundSteel(0.03)), course('G3', woundSteel(0.02)), course('D4', steel(0.013)), course('A4', steel(0.009))],
    source: `Pitches from python-mingus and MuseScore 3.2.3 data; scale length from memory. ${workedOut(75)}`,
  },
  {
    ...long,
    id: 'banjo-irish-tenor',
    kind: 'Irish tenor banjo',
    scaleLengthMillimetres: 560,
    frets: 19,
    courses: [course('G2', woundSteel(0.041)), course('D3', woundSteel(0.027)), course('A3', steel(0.018)), course('E4', steel(0.012))],
    source: `Pitches from python-mingus and MuseScore 3.2.3 data; scale length from memory. ${workedOut(75)}`,
  },
];
