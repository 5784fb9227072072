import { Chord } from 'tonal';
import { pitchClass, pitchMidi, type SpelledPitch, writtenPitch } from './pitch.ts';

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
export function openChord(pitches: readonly SpelledPitch[]): string | null {
  const rising = [...pitches].sort((a, b) => pitchMidi(a) - pitchMidi(b)).map(pitchClass);
  const classes = [...new Set(rising)];
  if (classes.length < 2) return null;
  const found = classes
    .flatMap((first) => Chord.detect([first, ...classes.filter((name) => name !== first)]))
    .filter((name) => !name.includes('/'))
    .map((name) => Chord.get(name))
    .filter((chord) => chord.tonic !== null && chord.notes.length === classes.length);
  const best = found.sort(
    (a, b) => plainness(a.type) - plainness(b.type) || classes.indexOf(a.tonic ?? '') - classes.indexOf(b.tonic ?? ''),
  )[0];
  if (best === undefined || best.tonic === null) return null;
  const kind = best.symbol.slice(best.tonic.length);
  const plain = plainNames.find(([pattern]) => pattern.test(kind));
  return writtenPitch(best.tonic) + (plain?.[1] ?? kind.replace('Madd', ' add').replaceAll('b', '♭').replaceAll('#', '♯'));
}

const plainTypes = [
  'major',
  'minor',
  'fifth',
  'sixth',
  'dominant seventh',
  'minor seventh',
  'major seventh',
  'suspended fourth',
  'suspended second',
];
const plainness = (type: string): number => {
  const place = plainTypes.indexOf(type);
  return place === -1 ? plainTypes.length : place;
};
