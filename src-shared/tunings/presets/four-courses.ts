import { row, type TuningPreset } from './row.ts';

const ukulele = 'G4 C4 E4 A4';
const fifths = 'G3 D4 A4 E5';
const irish = 'G2 D3 A3 D4';
const cavaquinho = 'D4 G4 B4 D5';
const portuguese = 'G4 G4 B4 D5';
const fourths = 'E1 A1 D2 G2';

/** Also for baritones, tenors in G6 or D6, the Venezuelan cuatro and the Greek bouzouki of four courses: their homes have the same shape. */
export const ukuleleTunings: readonly TuningPreset[] = [
  row('ukulele-home', 'Home', ukulele, ukulele),
  row('ukulele-open-c', 'Open C', 'G4 C4 E4 G4', ukulele),
  row('ukulele-open-c-minor', 'Open C minor', 'G4 C4 Eb4 G4', ukulele),
  row('ukulele-open-f', 'Open F', 'A4 C4 F4 A4', ukulele),
  row('ukulele-open-g', 'Open G', 'G4 B3 D4 G4', ukulele),
  row('ukulele-open-a-minor', 'Open A minor', 'A4 C4 E4 A4', ukulele),
  row('ukulele-course-4-down', '4 down a tone', 'F4 C4 E4 A4', ukulele),
  row('ukulele-course-3-down', '3 down a semitone', 'G4 B3 E4 A4', ukulele),
  row('ukulele-course-2-down', '2 down a semitone', 'G4 C4 Eb4 A4', ukulele),
  row('ukulele-all-down-semitone', 'All down a semitone', 'F#4 B3 D#4 G#4', ukulele),
  row('ukulele-all-down', 'All down a tone', 'F4 Bb3 D4 G4', ukulele),
];

/** For all instruments in fifths: the mandolins, tenor guitars and tenor banjos, the Irish bouzouki in G D A E. */
export const fifthsTunings: readonly TuningPreset[] = [
  row('fifths-home', 'Home', fifths, fifths),
  row('fifths-course-1-down', '1 down a tone', 'G3 D4 A4 D5', fifths),
  row('fifths-open-g', 'Open G', 'G3 D4 G4 B4', fifths),
  row('fifths-open-d', 'Open D, no third', 'A3 D4 A4 D5', fifths),
  row('fifths-open-a', 'Open A, no third', 'A3 E4 A4 E5', fifths),
];

export const otherFourCourseTunings: readonly TuningPreset[] = [
  row('irish-bouzouki-home', 'Home', irish, irish),
  row('irish-bouzouki-course-4-up', '4 up a tone', 'A2 D3 A3 D4', irish),
  row('irish-bouzouki-course-1-up', '1 up a tone', 'G2 D3 A3 E4', irish),
  row('cavaquinho-home', 'Home', cavaquinho, cavaquinho),
  row('cavaquinho-course-1-up', '1 up a tone', 'D4 G4 B4 E5', cavaquinho),
  row('cavaquinho-portugal-home', 'Home', portuguese, portuguese),
  row('bass-home', 'Home', fourths, fourths),
  row('bass-course-4-down', '4 down a tone', 'D1 A1 D2 G2', fourths),
  row('bass-all-down', 'All down a tone', 'D1 G1 C2 F2', fourths),
];
