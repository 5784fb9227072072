import { z } from 'zod';
import { parsePitch, pitchSchemaPattern, type SpelledPitch } from '#shared/music/index.ts';
import { materials, type Millimetres, millimetres } from '#shared/units/index.ts';

/** A spelled pitch in its stored form, `Eb4`. */
export const pitchSchema = z
  .string()
  .regex(pitchSchemaPattern, 'Write a pitch as a letter, its sign and its octave, like Eb4.')
  .refine((name) => parsePitch(name) === name, 'There is no such pitch.')
  .transform((name) => name as SpelledPitch);

/**
 * One physical string. Its linear density comes from the maker's figures where given, else from material and gauge; the core of a wound one and the
 * most that its maker rates it for stand here where they are known.
 */
export const stringSchema = z.strictObject({
  material: z.enum(materials),
  wound: z.boolean(),
  diameterMillimetres: z.number().min(0.1).max(4).nullable(),
  linearDensityKilogramsPerMetre: z.number().min(0.00005).max(0.1).nullable(),
  coreDiameterMillimetres: z.number().min(0.1).max(2).optional(),
  ratedTensionNewtons: z.number().min(1).max(500).optional(),
});

const scaleLength = z.number().min(150, 'A scale length is at least 150 mm.').max(1200, 'A scale length is at most 1200 mm.');

/**
 * What the player frets as one: a string or a pair or triple, each with the open pitch that it is at home in. Its own scale length stands
 * here only where it is not the instrument's, as for a short fifth string.
 */
export const courseSchema = z.strictObject({
  strings: z.array(stringSchema).min(1).max(3),
  home: z.array(pitchSchema).min(1).max(3),
  scaleLengthMillimetres: scaleLength.optional(),
});

/** The strings fitted between two string changes. Two sets of one instrument (high G, low G) keep separate histories. */
export const stringSetSchema = z.strictObject({
  id: z.string().min(1).max(64),
  instrumentId: z.string().min(1).max(64),
  name: z.string().trim().min(1).max(80),
  fittedAt: z.number().int().nonnegative(),
  courses: z
    .array(courseSchema)
    .min(1)
    .max(12)
    .refine(
      (courses) => courses.every(({ strings, home }) => strings.length === home.length),
      'Every string of a course needs a home pitch.',
    ),
});

/** How strings are wound up, as players call it: wooden or screwed friction pegs, worm gears, planetary gears inside the peg. */
export const pegKinds = ['friction', 'geared', 'planetary'] as const;
/** What strings end at: a glued bridge where they are tied, hang in slots by a knot, or are held by pins; or a tailpiece behind a floating bridge. */
export const bridgeKinds = ['tied', 'slotted', 'pinned', 'tailpiece'] as const;

/**
 * An instrument of the player's. `pegs` and `bridge` are null where nobody said; `pegsHavePlay` tells that a lowered string is best brought up from
 * below. `inputLabel` and `inputChannel` are the microphone or pickup that it was last heard through.
 */
export const instrumentSchema = z.strictObject({
  id: z.string().min(1).max(64),
  name: z.string().trim().min(1, 'Give the instrument a name.').max(60),
  presetId: z.string().min(1).max(64),
  kind: z.string().trim().min(1).max(60),
  scaleLengthMillimetres: scaleLength,
  frets: z.number().int().min(0).max(40),
  leftHanded: z.boolean(),
  upsideDown: z.boolean(),
  pegs: z.enum(pegKinds).nullable(),
  bridge: z.enum(bridgeKinds).nullable(),
  pegsHavePlay: z.boolean(),
  inputLabel: z.string().max(200).nullable(),
  inputChannel: z.number().int().min(0).max(31),
  stringSetId: z.string().min(1).max(64),
  tuningId: z.string().min(1).max(64).nullable(),
});

export type InstrumentString = z.infer<typeof stringSchema>;
export type Course = z.infer<typeof courseSchema>;
export type StringSet = z.infer<typeof stringSetSchema>;
export type Instrument = z.infer<typeof instrumentSchema>;
export type PegKind = (typeof pegKinds)[number];
export type BridgeKind = (typeof bridgeKinds)[number];

/** The open pitches that a string set is at home in: per course, per string, from the player's eye down. */
export const homePitches = (set: StringSet): readonly (readonly SpelledPitch[])[] => set.courses.map(({ home }) => home);

/** The scale length of a course: its own, else the instrument's. A banjo's fifth string → 500 mm, its others 667 mm. */
export const courseScaleLength = (
  instrument: Pick<Instrument, 'scaleLengthMillimetres'>,
  course: Pick<Course, 'scaleLengthMillimetres'> | undefined,
): Millimetres => millimetres(course?.scaleLengthMillimetres ?? instrument.scaleLengthMillimetres);

/** The number that a player calls a course by; 1 is nearest the floor. `courseNumber(0, 4)` → 4. */
export const courseNumber = (index: number, count: number): number => count - index;

/** The inverse of `courseNumber`: place from the player's eye, from 0. `courseIndex(1, 4)` → 3. */
export const courseIndex = (number: number, count: number): number => count - number;
