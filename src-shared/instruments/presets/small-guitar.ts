import { course, type InstrumentPreset, plain, pullNotPublished, steel, workedOut } from './preset.ts';

const cavaquinho = { family: 'cavaquinho', scaleLengthMillimetres: 338, frets: 17, ...pullNotPublished } as const;
const cavaquinhoSource = `Pitches from Zabolekar/acordes, the Brazilian ones also from MuseScore 3.2.3 data; scale length from memory. ${workedOut(50)}`;
const [d4, g4, b4] = [course('D4', steel(0.018)), course('G4', steel(0.013)), course('B4', steel(0.0105))];

// Small guitars that stand alone in their family, but for the cavaquinhos.
export const smallGuitars: readonly InstrumentPreset[] = [
  {
    ...cavaquinho,
    id: 'cavaquinho-brazil',
    kind: 'cavaquinho, Brazil',
    courses: [d4, g4, b4, course('D5', steel(0.009))],
    source: cavaquinhoSource,
  },
  {
    ...cavaquinho,
    id: 'cavaquinho-like-guitar',
    kind: 'cavaquinho, D G B E',
    courses: [d4, g4, b4, course('E5', steel(0.008))],
    source: cavaquinhoSource,
  },
  {
    ...cavaquinho,
    id: 'cavaquinho-portugal',
    kind: 'cavaquinho, Portugal',
    courses: [g4, g4, b4, course('D5', steel(0.009))],
    source: cavaquinhoSource,
  },
  {
    id: 'timple',
    family: 'timple',
    kind: 'timple',
    scaleLengthMillimetres: 400,
    frets: 18,
    ...pullNotPublished,
    courses: [
      course('G4', plain('nylon', 0.7)),
      course('C5', plain('nylon', 0.53)),
      course('E4', plain('nylon', 0.84)),
      course('A4', plain('nylon', 0.63)),
      course('D5', plain('nylon', 0.47)),
    ],
    source: `Pitches from Zabolekar/acordes; scale length from memory. ${workedOut(38)}`,
  },
  {
    id: 'balalaika-prima',
    family: 'balalaika',
    kind: 'balalaika prima',
    scaleLengthMillimetres: 435,
    frets: 16,
    ...pullNotPublished,
    courses: [course('E4', plain('nylon', 0.97)), course('E4', plain('nylon', 0.97)), course('A4', steel(0.01))],
    source: `Pitches from Zabolekar/acordes and MuseScore 3.2.3 data; scale length from memory. ${workedOut(60)}`,
  },
];
