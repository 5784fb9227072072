import { centsBetween, hertz } from '#shared/units/index.ts';
import type { StringState, Visit } from './state.ts';

/** How far the glide of a hard pluck reaches at most on a small instrument, in cents. */
const glideCents = 15;
/** A first frame in the glide tells where the string stands no better than this, as a sigma in cents. */
const glideSigmaCents = 3;
/** Turning away from the aim by more than this is said, in cents. */
const awayCents = 15;
/** A string that has moved less than this has not been turned, in cents. */
const stillCents = 5;
/** A player who has been told to turn has had time to by then: seconds, and plucks. */
const stillSeconds = 8;
const stillPlucks = 3;
/** After a silence as long as this, a sound is a new pluck, in seconds. */
const pluckGapSeconds = 0.35;

type Frame = { readonly atSeconds: number; readonly hertz: number; readonly sigmaCents: number; readonly steady: boolean };

/** The visit after one more frame of its string. `number` is the course as a player calls it. */
export function heardIn(one: StringState, frame: Frame, number: number, toleranceCents: number): Visit {
  const { visit } = one;
  const away = Math.abs(centsBetween(hertz(one.aimHertz), hertz(frame.hertz)));
  if (visit === null) {
    const still = { hertz: frame.hertz, sinceSeconds: frame.atSeconds, lastSeconds: frame.atSeconds, plucks: 1 };
    return { before: beforeOf(frame), frames: 1, nearestCents: away, still, notice: null, undershot: false };
  }
  const still = stillAfter(visit.still, frame);
  const nearestCents = Math.min(visit.nearestCents, away);
  const notice = noticeOf({ still, nearestCents, away, frame, number, toleranceCents });
  return { ...visit, before: firstHeard(visit, frame), frames: visit.frames + 1, still, nearestCents, notice };
}

const beforeOf = ({ steady, sigmaCents, ...frame }: Frame): Visit['before'] => ({
  ...frame,
  steady,
  sigmaCents: steady ? sigmaCents : Math.max(sigmaCents, glideSigmaCents),
});

/**
 * Where a visit found the string. A first frame in the glide of a hard pluck gives way to the first one that stands still, if that is near;
 * one that the next ones leave at a jump was of something else.
 */
function firstHeard({ before, frames }: Visit, frame: Frame): Visit['before'] {
  const jump = Math.abs(centsBetween(hertz(frame.hertz), hertz(before.hertz)));
  const isGlide = frame.steady && !before.steady && jump < glideCents;
  const isOther = frames < openingFrames && jump > glideCents;
  return isGlide || isOther ? beforeOf(frame) : before;
}

/** The first frames of a visit: no peg is turned as fast as they come. */
const openingFrames = 3;

function stillAfter(still: Visit['still'], { atSeconds, hertz: heard, sigmaCents }: Frame): Visit['still'] {
  const moved = Math.abs(centsBetween(hertz(heard), hertz(still.hertz)));
  if (moved > stillCents + 2 * sigmaCents) return { hertz: heard, sinceSeconds: atSeconds, lastSeconds: atSeconds, plucks: 1 };
  const isNewPluck = atSeconds - still.lastSeconds > pluckGapSeconds;
  return { ...still, lastSeconds: atSeconds, plucks: still.plucks + (isNewPluck ? 1 : 0) };
}

function noticeOf(seen: {
  readonly still: Visit['still'];
  readonly nearestCents: number;
  readonly away: number;
  readonly frame: Frame;
  readonly number: number;
  readonly toleranceCents: number;
}): string | null {
  const { still, nearestCents, away, frame, number, toleranceCents } = seen;
  if (away > nearestCents + awayCents + 2 * frame.sigmaCents) return 'The other way.';
  const isStuck = still.plucks >= stillPlucks && frame.atSeconds - still.sinceSeconds > stillSeconds && away > toleranceCents + stillCents;
  return isStuck ? notChanging(number) : null;
}

/** What is said when a peg is turned and the course asked for stays where it is. */
export const notChanging = (number: number): string => `Course ${number} isn’t changing: is that its peg?`;
