import { course, type InstrumentPreset, pullNotPublished, steel, workedOut, wound, woundSteel } from './preset.ts';

const family = 'mandolin';

export const mandolins: readonly InstrumentPreset[] = [
  {
    id: 'mandolin',
    family,
    kind: 'mandolin',
    scaleLengthMillimetres: 352,
    frets: 20,
    // Linear densities from D'Addario's tables, items J6201 to J6204.
    courses: [
      course('G3 G3', wound('steel', 0.864, 3.9838)),
      course('D4 D4', wound('steel', 0.61, 1.9687)),
      course('A4 A4', { ...steel(0.014), linearDensityKilogramsPerMetre: 0.0007754 }),
      course('E5 E5', { ...steel(0.01), linearDensityKilogramsPerMetre: 0.0003956 }),
    ],
    usualPullNewtons: [74.7, 111.7],
    usualTotalPullNewtons: null,
    source: 'D’Addario’s tables of string tensions at 13.875 inches, sets J62 and J74: 16.8 to 25.1 lbf a string.',
  },
  {
    id: 'mandola',
    family,
    kind: 'mandola',
    scaleLengthMillimetres: 420,
    frets: 20,
    ...pullNotPublished,
    courses: [
      course('C3 C3', woundSteel(0.044)),
      course('G3 G3', woundSteel(0.029)),
      course('D4 D4', steel(0.019)),
      course('A4 A4', steel(0.0125)),
    ],
    source: `Pitches from python-mingus, D’Addario’s tables and MuseScore 3.2.3 data; D’Addario has 403 mm, others longer. ${workedOut(85)}`,
  },
  {
    id: 'mandolin-octave',
    family,
    kind: 'octave mandolin',
    scaleLengthMillimetres: 540,
    frets: 20,
    ...pullNotPublished,
    courses: [
      course('G2 G2', woundSteel(0.045)),
      course('D3 D3', woundSteel(0.03)),
      course('A3 A3', steel(0.0195)),
      course('E4 E4', steel(0.013)),
    ],
    source: `Pitches from python-mingus and MuseScore 3.2.3 data; scale length from memory. ${workedOut(85)}`,
  },
  {
    id: 'mandocello',
    family,
    kind: 'mandocello',
    scaleLengthMillimetres: 635,
    frets: 20,
    ...pullNotPublished,
    courses: [
      course('C2 C2', woundSteel(0.066)),
      course('G2 G2', woundSteel(0.044)),
      course('D3 D3', woundSteel(0.029)),
      course('A3 A3', steel(0.019)),
    ],
    source: `Pitches from python-mingus, D’Addario’s tables (25 inches) and MuseScore 3.2.3 data. ${workedOut(110)}`,
  },
];
