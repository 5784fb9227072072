import { holdsFrom } from './holds.ts';
import type { Lesson } from './learning.ts';
import { outlookOf } from './plan.ts';
import type { Move, Policy } from './types.ts';
import { inWords, sizeOf } from './why.ts';

// "Leave it tonight, or take it home now?": both courses of action carried on to the time when it is wanted at home again.

/** A string away from home: what was learned of it, its moves so far, oldest first, and the turn that takes it home, in cents. */
export interface Night {
  readonly lesson: Lesson;
  readonly moves: readonly Move[];
  readonly homeCents: number;
}

/** How restless the worst string is when the instrument is wanted. */
export interface Restlessness {
  /** How far it has crept off its pitch by then, if nobody touches it up; positive = sharp. */
  readonly offCents: number;
  /** How far it goes on to move within the horizon from then; positive = sharp. */
  readonly moveCents: number;
  /** How long after that it holds; 0 = at once, null = not within 30 days. */
  readonly holdsInSeconds: number | null;
}

/** Both answers, the better one, and one plain sentence with the numbers. */
export interface Tonight {
  readonly leave: Restlessness;
  readonly home: Restlessness;
  /** `either` where they differ by less than half a cent in the horizon and both hold or neither does. */
  readonly better: 'leave' | 'home' | 'either';
  readonly why: string;
}

const noMatterCents = 0.5;

/**
 * Compares taking all strings home now with leaving them and taking them home at `wantedSeconds`, by how they behave from then on.
 * Throws RangeError without strings, or where `wantedSeconds` lies before `nowSeconds`.
 * `leaveOrTakeHome([{ lesson, moves: [{ atSeconds: 0, cents: 200 }], homeCents: -200 }], { nowSeconds: 7200, wantedSeconds: 79_200, policy }).better` → 'home'.
 */
export function leaveOrTakeHome(
  strings: readonly Night[],
  { nowSeconds, wantedSeconds, policy }: { readonly nowSeconds: number; readonly wantedSeconds: number; readonly policy: Policy },
): Tonight {
  if (strings.length === 0) throw new RangeError('there must be strings to compare');
  if (!(wantedSeconds >= nowSeconds)) throw new RangeError(`wantedSeconds must not lie before now; got ${wantedSeconds} at ${nowSeconds}`);
  const takenHomeAt = (atSeconds: number) =>
    worst(strings.map((string) => restlessness(string, atSeconds, { nowSeconds, wantedSeconds, policy })));
  const leave = takenHomeAt(wantedSeconds);
  const home = takenHomeAt(nowSeconds);
  const better = betterOf(leave, home);
  return { leave, home, better, why: `taken home now ${words(home, policy)}; left until then ${words(leave, policy)}` };
}

function restlessness(
  { lesson, moves, homeCents }: Night,
  homeAtSeconds: number,
  { nowSeconds, wantedSeconds, policy }: { readonly nowSeconds: number; readonly wantedSeconds: number; readonly policy: Policy },
): Restlessness {
  const outlook = outlookOf({ lesson, moves: [...moves, { atSeconds: homeAtSeconds, cents: homeCents }], nowSeconds });
  const holds = holdsFrom(outlook, policy, wantedSeconds);
  return {
    offCents: outlook.movement(homeAtSeconds, wantedSeconds).cents,
    moveCents: outlook.movement(wantedSeconds, wantedSeconds + policy.horizonSeconds).cents,
    holdsInSeconds: holds === null ? null : holds - wantedSeconds,
  };
}

const waitOf = ({ holdsInSeconds }: Restlessness): number => holdsInSeconds ?? Number.POSITIVE_INFINITY;

const largest = (cents: readonly number[]): number => cents.reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0);

/** The worst of each over the strings. */
function worst(all: readonly Restlessness[]): Restlessness {
  const wait = Math.max(...all.map(waitOf));
  return {
    offCents: largest(all.map(({ offCents }) => offCents)),
    moveCents: largest(all.map(({ moveCents }) => moveCents)),
    holdsInSeconds: Number.isFinite(wait) ? wait : null,
  };
}

function betterOf(leave: Restlessness, home: Restlessness): Tonight['better'] {
  const more = Math.abs(leave.moveCents) - Math.abs(home.moveCents);
  const alike = (waitOf(leave) === 0) === (waitOf(home) === 0);
  if (Math.abs(more) < noMatterCents && alike) return 'either';
  if (!alike) return waitOf(leave) === 0 ? 'leave' : 'home';
  return more > 0 ? 'home' : 'leave';
}

function words({ offCents, moveCents, holdsInSeconds }: Restlessness, { toleranceCents, horizonSeconds }: Policy): string {
  const touched =
    Math.abs(offCents) > toleranceCents ? `it is ${sizeOf(offCents)} ${offCents > 0 ? 'sharp' : 'flat'} by then; touched up, ` : '';
  const moves = `${touched}it moves ${sizeOf(moveCents)} in the first ${inWords(horizonSeconds).replace('about ', '')}`;
  if (holdsInSeconds === null) return `${moves} and does not hold within 30 days`;
  return holdsInSeconds === 0 ? `${moves} and holds at once` : `${moves} and holds after ${inWords(holdsInSeconds)}`;
}
