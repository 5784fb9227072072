import { Chord, Note } from 'tonal';
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
  const rising = [...pitches].sort((a, b) => pitchMidi(a) - pitchMidi(b));
  const classes = [...new Map(rising.map((pitch) => [pitchClass(pitch), pitchMidi(pitch) % 12]))];
  if (classes.length < 2) return null;
  let best: { readonly root: string; readonly rank: number } | null = null;
  for (const [root, semitones] of classes) {
    const above = new Set(classes.map(([, other]) => (other - semitones + 12) % 12));
    const rank = above.size === classes.length ? (rankOf.get(keyOf(above)) ?? null) : null;
    if (rank !== null && (best === null || rank < best.rank)) best = { root, rank };
  }
  const kind = best === null ? undefined : plainKinds[best.rank];
  if (best === null || kind === undefined) return null;
  const plain = plainNames.find(([pattern]) => pattern.test(kind));
  return writtenPitchIn(best.root, language) + (plain?.[1] ?? kind.replace('Madd', ' add').replaceAll('b', '♭').replaceAll('#', '♯'));
}

/** A set of semitones above a root, as a text: `0 4 7`. */
const keyOf = (semitones: ReadonlySet<number>): string => [...semitones].sort((a, b) => a - b).join(' ');

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

/** The place of each kind in `plainKinds`, by its semitones above the root: asked of tonal once, since naming a chord there takes half a millisecond. */
const rankOf: ReadonlyMap<string, number> = new Map(
  plainKinds.map((kind, rank) => [keyOf(new Set(Chord.get(`C${kind}`).notes.map((name) => Note.chroma(name)))), rank]),
);
