import { pitchHertz } from '#shared/music/index.ts';
import { atCents, cents, type Hertz } from '#shared/units/index.ts';
import type { OpenPitches } from './moves.ts';
import type { TuningCourse } from './tuning.ts';

/** Wanted frequencies per course and per string at a reference pitch, the courses' offsets in cents taken in. */
export const wantedHertz = (
  pitches: OpenPitches,
  offsets: readonly Pick<TuningCourse, 'offsetCents'>[] | null,
  reference: Hertz,
): readonly (readonly Hertz[])[] =>
  pitches.map((strings, course) =>
    strings.map((pitch) => atCents(pitchHertz(pitch, reference), cents(offsets?.[course]?.offsetCents ?? 0))),
  );
