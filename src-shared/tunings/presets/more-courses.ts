import { row, type TuningPreset } from './row.ts';

const guitar = 'E2 A2 D3 G3 B3 E4';
const banjo = 'G4 D3 G3 B3 D4';
const charango = 'G4 C5 E5 A4 E5';
const timple = 'G4 C5 E4 A4 D5';
const fourths = 'B2 E3 A3 D4 G4';
const trichordo = 'D3 A3 D4';
const balalaika = 'E4 E4 A4';

/** Guitars of six courses, the 12-string and the guitalele among them. D A D G A D, open D, open G and drop C as in LilyPond 2.24.1. */
export const guitarTunings: readonly TuningPreset[] = [
  row('guitar-home', 'Home', guitar, guitar),
  row('guitar-drop-d', 'Drop D', 'D2 A2 D3 G3 B3 E4', guitar),
  row('guitar-open-d', 'Open D', 'D2 A2 D3 F#3 A3 D4', guitar),
  row('guitar-open-g', 'Open G', 'D2 G2 D3 G3 B3 D4', guitar),
  row('guitar-open-d-sus4', 'Open Dsus4', 'D2 A2 D3 G3 A3 D4', guitar),
  row('guitar-open-c', 'Open C', 'C2 G2 C3 G3 C4 E4', guitar),
  row('guitar-course-3-down', '3 down a semitone', 'E2 A2 D3 F#3 B3 E4', guitar),
  row('guitar-all-down-semitone', 'All down a semitone', 'Eb2 Ab2 Db3 Gb3 Bb3 Eb4', guitar),
  row('guitar-all-down', 'All down a tone', 'D2 G2 C3 F3 A3 D4', guitar),
  row('guitar-drop-c', 'Drop C', 'C2 G2 C3 F3 A3 D4', guitar),
];

/** Banjo of five strings, as in LilyPond 2.24.1, but for double D: its third string is A, double C a tone higher, where LilyPond has G by mistake. */
export const banjoTunings: readonly TuningPreset[] = [
  row('banjo-home', 'Home', banjo, banjo),
  row('banjo-double-c', 'Double C', 'G4 C3 G3 C4 D4', banjo),
  row('banjo-course-4-down', '4 down a tone', 'G4 C3 G3 B3 D4', banjo),
  row('banjo-open-g-sus4', 'Open Gsus4', 'G4 D3 G3 C4 D4', banjo),
  row('banjo-open-g-minor', 'Open G minor', 'G4 D3 G3 Bb3 D4', banjo),
  row('banjo-double-d', 'Double D', 'A4 D3 A3 D4 E4', banjo),
];

export const otherTunings: readonly TuningPreset[] = [
  row('charango-home', 'Home', charango, charango),
  row('charango-all-down', 'All down a tone', 'F4 Bb4 D5 G4 D5', charango),
  row('timple-home', 'Home', timple, timple),
  row('fourths-home', 'Home', fourths, fourths),
  row('trichordo-home', 'Home', trichordo, trichordo),
  row('balalaika-home', 'Home', balalaika, balalaika),
];
