import { course, type InstrumentPreset, plain, pullNotPublished, workedOut, wound } from './preset.ts';

const charango = { family: 'charango', frets: 17, ...pullNotPublished } as const;

export const charangos: readonly InstrumentPreset[] = [
  {
    ...charango,
    id: 'charango',
    kind: 'charango',
    scaleLengthMillimetres: 360,
    courses: [
      course('G4 G4', plain('synthetic-gut', 0.68)),
      course('C5 C5', plain('synthetic-gut', 0.51)),
      course('E5 E4', plain('synthetic-gut', 0.41), plain('synthetic-gut', 0.81)),
      course('A4 A4', plain('synthetic-gut', 0.61)),
      course('E5 E5', plain('synthetic-gut', 0.41)),
    ],
    source: `Encyclopedia article on the charango (fourth course C5; python-mingus has C4 by mistake); scale length from a shop page. ${workedOut(38)}`,
  },
  {
    ...charango,
    id: 'ronroco',
    kind: 'ronroco',
    scaleLengthMillimetres: 490,
    courses: [
      course('G3 G3', wound('nylon', 0.51, 1.08)),
      course('C4 C4', plain('synthetic-gut', 0.77)),
      course('E4 E3', plain('synthetic-gut', 0.61), wound('nylon', 0.61, 1.53)),
      course('A3 A3', plain('synthetic-gut', 0.92)),
      course('E4 E4', plain('synthetic-gut', 0.61)),
    ],
    source: `A charango an octave lower; scale length from memory. ${workedOut(40)}`,
  },
];
