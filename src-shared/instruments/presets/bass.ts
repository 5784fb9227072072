import { course, type InstrumentPreset, pullNotPublished, workedOut, woundSteel } from './preset.ts';

const bass = { family: 'bass', scaleLengthMillimetres: 864, frets: 21, ...pullNotPublished } as const;
// Sounding pitch; music for bass is written an octave higher.
const [e1, a1, d2, g2] = [
  course('E1', woundSteel(0.1)),
  course('A1', woundSteel(0.075)),
  course('D2', woundSteel(0.055)),
  course('G2', woundSteel(0.041)),
];
const source = `Pitches from python-mingus, D’Addario’s tables and LilyPond 2.24.1; scale length common practice. ${workedOut(180)}`;

export const basses: readonly InstrumentPreset[] = [
  { ...bass, id: 'bass-four', kind: 'bass, 4 strings', courses: [e1, a1, d2, g2], source },
  { ...bass, id: 'bass-five', kind: 'bass, 5 strings', courses: [course('B0', woundSteel(0.125)), e1, a1, d2, g2], source },
];
