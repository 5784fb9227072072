import { Chord } from 'tonal';
import type { NoteLanguage } from './names.ts';
import { pitchClass, pitchMidi, type SpelledPitch, writtenPitchIn } from './pitch.ts';

const plainNames: readonly (readonly [RegExp, string])[] = [
  [/^M$/u, ' major'],
  [/^m$/u, ' minor'],
  [/^5$/u, ', no third'],
];

/**
 * What chord open strings make, named from the plainest root: triads before anything larger, the root position first.
 * Null where the pitches make no chord with a name.
 * `openChord(['G4', 'C4', 'Eb4', 'G4'])` → `C minor`; the standard ukulele strings → `C6`.
 */
export function openChord(pitches: readonly SpelledPitch[], language: NoteLanguage = 'english'): string | null {
  const rising = [...pitches].sort((a, b) => pitchMidi(a) - pitchMidi(b)).map(pitchClass);
  const classes = [...new Set(rising)];
  if (classes.length < 2) return null;
  const found = classes
    .flatMap((first) => Chord.detect([first, ...classes.filter((name) => name !== first)]))
    .filter((name) => !name.includes('/'))
    .map((name) => Chord.get(name))
    .filter((chord) => chord.tonic !== null && chord.notes.length === classes.length && plainKinds.includes(kindOf(chord)));
  const best = found.sort(
    (a, b) =>
      plainKinds.indexOf(kindOf(a)) - plainKinds.indexOf(kindOf(b)) || classes.indexOf(a.tonic ?? '') - classes.indexOf(b.tonic ?? ''),
  )[0];
  if (best === undefined || best.tonic === null) return null;
  const kind = kindOf(best);
  const plain = plainNames.find(([pattern]) => pattern.test(kind));
  return writtenPitchIn(best.tonic, language) + (plain?.[1] ?? kind.replace('Madd', ' add').replaceAll('b', '♭').replaceAll('#', '♯'));
}

const kindOf = ({ symbol, tonic }: { readonly symbol: string; readonly tonic: string | null }): string => symbol.slice(tonic?.length ?? 0);

/** Chord kinds that a player has a name for, the plainest first; anything beyond is not named (own choice). */
const plainKinds = [
  'M',
  'm',
  '5',
  '6',
  '7',
  'm7',
  'maj7',
  'm6',
  'sus4',
  'sus2',
  'Madd9',
  'madd9',
  '7sus4',
  'dim',
  'aug',
  'dim7',
  'm7b5',
  '69',
];
