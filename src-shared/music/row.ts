import { type NoteLanguage, readName } from './names.ts';
import { parsePitch, pitchMidi, pitchNamed, rowWords, type SpelledPitch } from './pitch.ts';

/**
 * Reads a row of pitches with or without octaves, parted or run together, for the open courses of a home from the player's eye down.
 * Where no octave is given it is the one nearest to the course's home, the lower of two equally near. A small first letter before capitals
 * marks a re-entrant course: it sounds above the one beside it. Names the first word that is no pitch.
 * `parsePitchesNear('G C Eb G', home)` → `G4 C4 Eb4 G4` for a home of `G4 C4 E4 A4`; `gCEA` on a home with a low G → `G4 C4 E4 A4`.
 */
export function parsePitchesNear(
  text: string,
  home: readonly SpelledPitch[],
  language: NoteLanguage = 'english',
): readonly SpelledPitch[] | { readonly notAPitch: string } {
  const words = rowWords(text);
  const [only] = words;
  const names = words.length === 1 && only !== undefined ? runTogether(only, home.length, language) : words;
  const pitches: SpelledPitch[] = [];
  for (const [course, name] of names.entries()) {
    const pitch = parsePitch(name, language) ?? nearest(readName(name, language), home[Math.min(course, home.length - 1)]);
    if (pitch === null) return { notAPitch: name };
    pitches.push(pitch);
  }
  const [first, second, ...others] = pitches;
  if (first === undefined || second === undefined || !marksReEntrant(names)) return pitches;
  return [above(first, second), second, ...others];
}

/** The pitch of a name that is nearest to a home, the lower of two. */
function nearest(name: string | null, home: SpelledPitch | undefined): SpelledPitch | null {
  const somewhere = name === null ? null : parsePitch(`${name}4`);
  if (name === null || somewhere === null || home === undefined) return null;
  const up = (((pitchMidi(somewhere) - pitchMidi(home)) % 12) + 12) % 12;
  return pitchNamed(pitchMidi(home) + (up < 6 ? up : up - 12), name);
}

const marksReEntrant = (names: readonly string[]): boolean =>
  names.every((name, course) => !/\d/u.test(name) && (course === 0 ? /^\p{Ll}/u : /^\p{Lu}/u).test(name));

/** The same name above another pitch, by an octave at most. */
function above(pitch: SpelledPitch, beside: SpelledPitch): SpelledPitch {
  const up = ((((pitchMidi(pitch) - pitchMidi(beside)) % 12) + 11) % 12) + 1;
  return pitchNamed(pitchMidi(beside) + up, pitch.replace(/-?\d$/u, '')) ?? pitch;
}

const pieces: Readonly<Record<NoteLanguage, RegExp>> = {
  english: /^[A-Ga-g](?:bb?|##?)?(?:-?\d)?/u,
  german: /^(?:[Aa]sas|[AEae]s(?:es)?|[A-Ha-h](?:isis|is|eses|es|bb?|##?)?)(?:-?\d)?/u,
  'fixed-do': /^(?:do|ut|r[eé]|mi|fa|sol|la|si)(?:bb?|##?)?(?:-?\d)?/iu,
};

/** Cuts a word into as many names as there are courses; a small `b` is a flat or a note as the number of courses wants it. */
function runTogether(word: string, courses: number, language: NoteLanguage): readonly string[] {
  const cut = (rest: string, left: number): readonly string[] | null => {
    if (rest === '') return left === 0 ? [] : null;
    const longest = left === 0 ? undefined : pieces[language].exec(rest)?.[0];
    if (longest === undefined) return null;
    for (let size = longest.length; size > 0; size -= 1) {
      const piece = rest.slice(0, size);
      const isName = parsePitch(piece, language) !== null || readName(piece, language) !== null;
      const others = isName ? cut(rest.slice(size), left - 1) : null;
      if (others !== null) return [piece, ...others];
    }
    return null;
  };
  return cut(word, courses) ?? [word];
}
