import { course, type InstrumentPreset, pullNotPublished, steel, workedOut, woundSteel } from './preset.ts';

const greek = { family: 'bouzouki', scaleLengthMillimetres: 670, frets: 26, ...pullNotPublished } as const;
const irish = { family: 'bouzouki', scaleLengthMillimetres: 610, frets: 22, ...pullNotPublished } as const;
const greekSource = `Encyclopedia article on the bouzouki, h2g2’s entry, python-mingus. ${workedOut(65)}`;
const irishSource = `H2g2’s entry on the Irish bouzouki, python-mingus; makers’ scale lengths run from 560 to 660 mm. ${workedOut(80)}`;

export const bouzoukis: readonly InstrumentPreset[] = [
  {
    ...greek,
    id: 'bouzouki-greek-three',
    kind: 'Greek bouzouki, 3 courses',
    courses: [course('D4 D3', steel(0.01), woundSteel(0.021)), course('A3 A3', steel(0.014)), course('D4 D4', steel(0.01))],
    source: greekSource,
  },
  {
    ...greek,
    id: 'bouzouki-greek-four',
    kind: 'Greek bouzouki, 4 courses',
    courses: [
      course('C4 C3', steel(0.0115), woundSteel(0.024)),
      course('F4 F3', steel(0.009), woundSteel(0.018)),
      course('A3 A3', steel(0.014)),
      course('D4 D4', steel(0.01)),
    ],
    source: greekSource,
  },
  {
    ...irish,
    id: 'bouzouki-irish',
    kind: 'Irish bouzouki, G D A D',
    courses: [
      course('G2 G2', woundSteel(0.039)),
      course('D3 D3', woundSteel(0.026)),
      course('A3 A3', steel(0.017)),
      course('D4 D4', steel(0.0125)),
    ],
    source: irishSource,
  },
  {
    ...irish,
    id: 'bouzouki-irish-octaves',
    kind: 'Irish bouzouki, G D A D, octave pairs',
    courses: [
      course('G3 G2', steel(0.019), woundSteel(0.039)),
      course('D4 D3', steel(0.0125), woundSteel(0.026)),
      course('A3 A3', steel(0.017)),
      course('D4 D4', steel(0.0125)),
    ],
    source: irishSource,
  },
  {
    ...irish,
    id: 'bouzouki-irish-fifths',
    kind: 'Irish bouzouki, G D A E',
    courses: [
      course('G2 G2', woundSteel(0.039)),
      course('D3 D3', woundSteel(0.026)),
      course('A3 A3', steel(0.017)),
      course('E4 E4', steel(0.0115)),
    ],
    source: irishSource,
  },
];
