import { courseNumber } from '#shared/instruments/index.ts';
import { distance, type Key, pitchMidi, semitonesBetween, spellInKey, type SpelledPitch, transpose } from '#shared/music/index.ts';
import { type OpenPitches, type Tuning, tuningCourseSchema, tuningSchema } from '#shared/tunings/index.ts';
import { pitchText, readPitchesNear } from '../../ui/note-names.ts';
import { figure } from '../../ui/words.ts';
import { inLetters, readNumber } from '../numbers.ts';

/** A tuning as it stands in the form. */
export type Draft = {
  readonly name: string;
  /** One line of pitches from the player's eye down: one a course, or one a string. */
  readonly pitches: string;
  /** Cents a course; an empty line is none. */
  readonly offsets: readonly string[];
  readonly tags: string;
  readonly notes: string;
};

/** What is wrong, a sentence a field; the offset of a course is named `offset 2`. */
export type Problems = Readonly<Record<string, string>>;

/**
 * What a form was opened on: the tuning it changes (null for a new one), the one that a new one starts from, and the pitches and the home that
 * it shows.
 */
export type Ground = {
  readonly tuning: Tuning | null;
  readonly startsFrom?: Tuning;
  readonly shown: OpenPitches | null;
  readonly home: OpenPitches;
};

/** The keys with at most six signs. */
const tonics = {
  major: ['C', 'G', 'D', 'A', 'E', 'B', 'F#', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F'],
  minor: ['A', 'E', 'B', 'F#', 'C#', 'G#', 'D#', 'Eb', 'Bb', 'F', 'C', 'G', 'D'],
} as const;

/** Open pitches as one line, to read and to change. */
export const pitchesText = (pitches: OpenPitches): string => pitches.map((strings) => strings.map(pitchText).join(' ')).join('  ');

/** Offsets in cents as they stand in the form: nothing where there is none. */
export const centsFields = (offsetCents: readonly number[]): readonly string[] =>
  offsetCents.map((cents) => (cents === 0 ? '' : figure(cents, Number.isInteger(cents) ? 0 : 1)));

/** The form as it opens. */
export const draftOf = ({ tuning, startsFrom, shown, home }: Ground): Draft => ({
  name: tuning?.name ?? '',
  pitches: shown === null ? '' : pitchesText(shown),
  offsets: centsFields(home.map((_, course) => (tuning ?? startsFrom)?.courses[course]?.offsetCents ?? 0)),
  tags: (tuning ?? startsFrom)?.tags.join(', ') ?? '',
  notes: tuning?.notes ?? '',
});

/** No string goes further than this from home, in semitones (own choice: past it, an octave was mistyped). */
const furthest = 12;

/** Reads a line of pitches for a home: per course and string, or a sentence on what is wrong with it. */
export function readPitches(text: string, home: OpenPitches): OpenPitches | { readonly sentence: string } {
  const read = readPitchesNear(text, nearestHomes(text, home));
  if ('notAPitch' in read) return { sentence: `“${read.notAPitch}” is no pitch. Write a note and its octave, like ${pitchText('Eb4')}.` };
  if (read.length === 0) return { sentence: `Write ${inLetters(home.length)} pitches, the string nearest your eye first.` };
  const strings = home.flat().length;
  if (read.length !== home.length && read.length !== strings)
    return {
      sentence: `This line has ${inLetters(read.length)} ${read.length === 1 ? 'pitch' : 'pitches'}; the instrument has ${inLetters(home.length)} courses.`,
    };
  const pitches = spread(read, home);
  for (const [course, wanted] of pitches.entries()) {
    for (const [string, pitch] of wanted.entries()) {
      const from = home[course]?.[string];
      const away = from === undefined ? 0 : semitonesBetween(from, pitch);
      if (from !== undefined && Math.abs(away) > furthest)
        return {
          sentence: `${pitchText(pitch)} is ${Math.abs(away)} semitones from ${pitchText(from)}, the home of course ${courseNumber(course, home.length)}. Is its octave right?`,
        };
    }
  }
  return pitches;
}

/** The homes that names without an octave are read near to: one a string where the line is as long, else one a course. */
function nearestHomes(text: string, home: OpenPitches): readonly SpelledPitch[] {
  const strings = home.flat();
  const words = text.split(/[\s,;]+/u).filter((word) => word !== '');
  return words.length === strings.length ? strings : home.flatMap(([first]) => first ?? []);
}

/** The keys that a line can be spelled in, by their words: `E♭ major`. */
export const keys = (): readonly { readonly words: string; readonly key: Key }[] =>
  (['major', 'minor'] as const).flatMap((mode) =>
    tonics[mode].map((tonic) => ({ words: `${pitchText(tonic)} ${mode}`, key: { tonic, mode } })),
  );

/** The same line, spelled as a key has it; as it was where it cannot be read. */
export function spelledIn(text: string, home: OpenPitches, key: Key): string {
  const read = readPitches(text, home);
  return 'sentence' in read ? text : pitchesText(read.map((strings) => spellInKey(strings.map(pitchMidi), key)));
}

/** One pitch a string; where one was given a course, its other strings move along with the first. */
function spread(read: readonly SpelledPitch[], home: OpenPitches): OpenPitches {
  const isEveryString = read.length === home.flat().length;
  let next = 0;
  return home.map((strings) => {
    const [first] = strings;
    const wanted = read[next];
    if (isEveryString || first === undefined || wanted === undefined) {
      next += strings.length;
      return read.slice(next - strings.length, next);
    }
    next += 1;
    return strings.map((pitch) => transpose(pitch, distance(first, wanted)));
  });
}

const same = (a: OpenPitches, b: OpenPitches | null): boolean => a.flat().join(' ') === b?.flat().join(' ');

/** Reads the form: the tuning to save, or what is wrong. A tuning whose pitches were left as they are keeps the home it was written for. */
export function readDraft(draft: Draft, ground: Ground, newId: string): Tuning | { readonly problems: Problems } {
  const problems: Record<string, string> = {};
  const name = draft.name.trim();
  if (!tuningSchema.shape.name.safeParse(name).success) problems['name'] = 'Give the tuning a name of at most 80 letters.';
  const pitches = readPitches(draft.pitches, ground.home);
  if ('sentence' in pitches) problems['pitches'] = pitches.sentence;
  const offsets = draft.offsets.map((text, course) => {
    const cents = text.trim() === '' ? 0 : (readNumber(text) ?? Number.NaN);
    if (!tuningCourseSchema.shape.offsetCents.safeParse(cents).success) problems[`offset ${course}`] = 'From −50 to 50 cents, or empty.';
    return cents;
  });
  const tags = [...new Set(draft.tags.split(',').map((tag) => tag.trim()))].filter((tag) => tag !== '');
  if (!tuningSchema.shape.tags.safeParse(tags).success) problems['tags'] = 'At most 20 tags, each at most 40 letters, parted by commas.';
  if (!tuningSchema.shape.notes.safeParse(draft.notes).success) problems['notes'] = 'The notes are too long: at most 2000 letters.';
  if ('sentence' in pitches || Object.keys(problems).length > 0) return { problems };
  const kept = ground.tuning !== null && same(pitches, ground.shown) ? ground.tuning : null;
  const targets = kept?.courses.map((course) => course.pitches) ?? pitches;
  return {
    id: ground.tuning?.id ?? newId,
    name,
    courses: targets.map((strings, course) => ({ pitches: [...strings], offsetCents: offsets[course] ?? 0 })),
    home: (kept?.home ?? ground.home).map((strings) => [...strings]),
    favourite: ground.tuning?.favourite ?? false,
    tags,
    notes: draft.notes.trim(),
  };
}
