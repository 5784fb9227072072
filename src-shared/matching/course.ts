import { type Cents, centsBetween, hertz } from '#shared/units/index.ts';
import type { MatchContext } from './match.ts';

/** A pitch heard, with its standard error. */
export type HeardPitch = { readonly hertz: number; readonly sigmaCents: number };

/** One string of a sounding course: where it is, and how far from wanted; null where it was not heard by itself. */
export type StringHeard = (HeardPitch & { readonly deviationCents: Cents }) | null;

/**
 * A sounding course, string by string. `beatsPerSecond` is how fast its two strings beat against one another: at the lowest partial that
 * both have, so for a unison the difference of their pitches, for an octave that of the upper one and the second partial of the lower.
 * Null where there are not two strings to beat. `apartCents` is how far the pair is from the interval wanted between them.
 */
export type CourseHeard = {
  readonly strings: readonly StringHeard[];
  readonly beatsPerSecond: number | null;
  readonly apartCents: Cents | null;
};

/** A pair beats where the interval wanted is within this of an octave or its multiples, in cents. */
const purityCents = 60;

/**
 * Which string of a course each pitch of a frame is: they are dealt out so that the strings have moved least from where they were.
 * A charango's octave course heard at 659.6 and 329.7 Hz → strings at +1 and 0 cents, 0.2 beats a second.
 * Throws RangeError where there is no such course.
 */
export function readCourse(pitches: readonly HeardPitch[], course: number, { present, wanted }: MatchContext): CourseHeard {
  const [from, to] = [present[course], wanted[course]];
  if (from === undefined || to === undefined) throw new RangeError(`no course ${course} of ${wanted.length}`);
  const strings = deal(pitches, from).map((heard, string): StringHeard => {
    const target = to[string];
    return heard === null || target === undefined ? null : { ...heard, deviationCents: centsBetween(hertz(heard.hertz), hertz(target)) };
  });
  const [first, second] = strings;
  if (first === null || first === undefined || second === null || second === undefined || strings.length !== 2)
    return { strings, beatsPerSecond: null, apartCents: null };
  const [low, high] = first.hertz <= second.hertz ? [first, second] : [second, first];
  const times = Math.max(1, Math.round(high.hertz / low.hertz));
  const isPure = Math.abs(1200 * Math.log2(high.hertz / low.hertz / times)) <= purityCents;
  return {
    strings,
    beatsPerSecond: isPure ? Math.abs(high.hertz - times * low.hertz) : null,
    apartCents: centsBetween(hertz(high.hertz), hertz(low.hertz * (wantedRatio(to) ?? times))),
  };
}

function wantedRatio([one, other]: readonly number[]): number | null {
  return one === undefined || other === undefined ? null : Math.max(one, other) / Math.min(one, other);
}

/** Each pitch to a string of its own: the way of dealing that moves the strings least. At most three strings, so every way is tried. */
function deal(pitches: readonly HeardPitch[], from: readonly number[]): readonly (HeardPitch | null)[] {
  const heard = pitches.slice(0, from.length);
  let best: { readonly moved: number; readonly places: readonly number[] } = { moved: Number.POSITIVE_INFINITY, places: [] };
  const deepen = (places: readonly number[], moved: number): void => {
    if (moved >= best.moved) return;
    const next = heard[places.length];
    if (next === undefined) {
      best = { moved, places };
      return;
    }
    for (const [place, pitch] of from.entries())
      if (!places.includes(place)) deepen([...places, place], moved + Math.abs(centsBetween(hertz(next.hertz), hertz(pitch))));
  };
  deepen([], 0);
  return from.map((_, string) => heard[best.places.indexOf(string)] ?? null);
}
