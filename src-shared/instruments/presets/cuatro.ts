import { course, type InstrumentPreset, plain, pullNotPublished, steel, workedOut, woundSteel } from './preset.ts';

const tiple = { family: 'tiple', scaleLengthMillimetres: 530, frets: 18, ...pullNotPublished } as const;
const tipleSource = 'Encyclopedia article on the tiple (second course an octave triple; python-mingus has three in unison by mistake).';

export const cuatros: readonly InstrumentPreset[] = [
  {
    id: 'cuatro-venezuela',
    family: 'cuatro',
    kind: 'cuatro, Venezuela',
    scaleLengthMillimetres: 545,
    frets: 14,
    ...pullNotPublished,
    courses: [
      course('A3', plain('nylon', 1.05)),
      course('D4', plain('nylon', 0.79)),
      course('F#4', plain('nylon', 0.63)),
      course('B3', plain('nylon', 0.94)),
    ],
    source: `Encyclopedia article on re-entrant tuning; octaves and scale length from memory. ${workedOut(50)}`,
  },
  {
    id: 'cuatro-puerto-rico',
    family: 'cuatro',
    kind: 'cuatro, Puerto Rico',
    scaleLengthMillimetres: 515,
    frets: 20,
    ...pullNotPublished,
    courses: [
      course('B3 B2', steel(0.016), woundSteel(0.033)),
      course('E4 E3', steel(0.012), woundSteel(0.0245)),
      course('A3 A3', steel(0.018)),
      course('D4 D4', steel(0.0135)),
      course('G4 G4', steel(0.01)),
    ],
    source: `Encyclopedia article on the cuatro and python-mingus; scale length from memory. ${workedOut(65)}`,
  },
  {
    ...tiple,
    id: 'tiple-colombia',
    kind: 'tiple, Colombia',
    courses: [
      course('D4 D3 D4', steel(0.012), woundSteel(0.025), steel(0.012)),
      course('G4 G3 G4', steel(0.009), woundSteel(0.019), steel(0.009)),
      course('B4 B3 B4', steel(0.007), steel(0.014), steel(0.007)),
      course('E4 E4 E4', steel(0.011)),
    ],
    source: `${tipleSource} ${workedOut(55)}`,
  },
  {
    ...tiple,
    id: 'tiple-colombia-low',
    kind: 'tiple, Colombia, a tone lower',
    courses: [
      course('C4 C3 C4', steel(0.0135), woundSteel(0.028), steel(0.0135)),
      course('F4 F3 F4', steel(0.01), woundSteel(0.021), steel(0.01)),
      course('A4 A3 A4', steel(0.008), steel(0.016), steel(0.008)),
      course('D4 D4 D4', steel(0.012)),
    ],
    source: `${tipleSource} The older tuning. ${workedOut(55)}`,
  },
];
