import { parsePitches, type SpelledPitch } from '#shared/music/index.ts';

/** A starter tuning: a plain trade name (what the open courses make, or what moved), its pitches and the home it is written for. */
export type TuningPreset = {
  readonly id: string;
  readonly name: string;
  readonly pitches: readonly SpelledPitch[];
  readonly home: readonly SpelledPitch[];
};

const row = (id: string, name: string, pitches: string, home: string): TuningPreset => ({
  id,
  name,
  pitches: pitchesOf(pitches),
  home: pitchesOf(home),
});

function pitchesOf(text: string): readonly SpelledPitch[] {
  const pitches = parsePitches(text);
  if ('notAPitch' in pitches) throw new RangeError(`not a pitch in a starter tuning: ${pitches.notAPitch}`);
  return pitches;
}

const ukulele = 'G4 C4 E4 A4';
const guitar = 'E2 A2 D3 G3 B3 E4';

/** Starter tunings, by what the open courses make or what moved from home. */
export const tuningPresets: readonly TuningPreset[] = [
  row('ukulele-home', 'Home', ukulele, ukulele),
  row('ukulele-open-c', 'Open C', 'G4 C4 E4 G4', ukulele),
  row('ukulele-open-c-minor', 'Open C minor', 'G4 C4 Eb4 G4', ukulele),
  row('ukulele-open-f', 'Open F', 'A4 C4 F4 A4', ukulele),
  row('ukulele-course-4-down', '4 down a tone', 'F4 C4 E4 A4', ukulele),
  row('ukulele-course-3-down', '3 down a semitone', 'G4 B3 E4 A4', ukulele),
  row('ukulele-course-2-down', '2 down a semitone', 'G4 C4 Eb4 A4', ukulele),
  row('guitar-home', 'Home', guitar, guitar),
  row('guitar-drop-d', 'Drop D', 'D2 A2 D3 G3 B3 E4', guitar),
  row('guitar-open-d', 'Open D', 'D2 A2 D3 F#3 A3 D4', guitar),
  row('guitar-open-g', 'Open G', 'D2 G2 D3 G3 B3 D4', guitar),
];
