import { courseNumber } from '#shared/instruments/index.ts';
import type { SpelledPitch } from '#shared/music/index.ts';
import type { StringState } from '#shared/guidance/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { type Expected, leastCents } from '../../stores/expected.ts';
import { alongString } from '../../ui/scale.ts';
import { clockTime } from '../../ui/time.ts';
import { halves, listed } from '../../ui/words.ts';
import { pitchWords } from './sentences.ts';

/** What a landed string is expected to reach by itself: where its ring stands, from its aim, and the words beside it. */
export type Hollow = {
  /** Null where the ring would lie on the bead or too far off: then only the words are shown. */
  readonly ringCents: number | null;
  readonly beadCents: number;
  /** `reaches B♭3 at 20:16`, and what then: `1½ c above it by 20:30`. */
  readonly what: string;
  readonly after: string;
};

/** A ring is drawn within this of the aim, in cents. */
const widestCents = 15;
/** Nearer to the bead than this share of the board, it would touch it. */
const touchingShare = 0.054;

/** The ring of a string and its words. */
export function hollowOf(expected: Expected, one: StringState, wanted: readonly SpelledPitch[], courses = 0): Hollow {
  const { reachesAtSeconds, by, endCents, untilSeconds } = expected;
  const wantedCents = centsBetween(hertz(one.wantedHertz), hertz(one.aimHertz));
  const beadCents = centsBetween(hertz(one.presentHertz), hertz(one.aimHertz));
  const isReached = reachesAtSeconds !== null || by.length > 0;
  const ring = isReached ? wantedCents : wantedCents + endCents;
  const name = pitchWords(wanted);
  const beside = `${halves(Math.abs(endCents))} c ${endCents < 0 ? 'below' : 'above'}`;
  const isFar = Math.abs(ring) > widestCents || Math.abs(alongString(ring) - alongString(beadCents)) < touchingShare;
  const words = (): Pick<Hollow, 'what' | 'after'> => {
    if (by.length > 0) {
      const numbers = listed(by.map((course) => courseNumber(course, courses)));
      return { what: `reaches ${name} when ${numbers} ${by.length > 1 ? 'are' : 'is'} turned`, after: '' };
    }
    if (reachesAtSeconds === null) return { what: `${beside} ${name} by ${clockTime(untilSeconds * 1000)}`, after: '' };
    const after = Math.abs(endCents) < leastCents ? '' : `${beside} it by ${clockTime(untilSeconds * 1000)}`;
    return { what: `reaches ${name} at ${clockTime(reachesAtSeconds * 1000)}`, after };
  };
  return { ringCents: isFar ? null : ring, beadCents, ...words() };
}
