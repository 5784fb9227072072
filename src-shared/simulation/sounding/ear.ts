import type { Random } from '../strings/index.ts';
import type { Asked, Outcome, Player } from '../player/index.ts';
import type { Sounding } from './sounding.ts';

/** Whoever guides by ear: hears samples, and asks; a course of several strings is asked for string by string. */
export type EarGuide = {
  readonly listen: (samples: Float32Array) => void;
  readonly ask: () => Asked | 'strum';
};

/** How the player treats what rings on: 1 = always stops the other strings before a pluck. */
export type Manners = { readonly dampChance: number };

const hopSeconds = 0.01;
const soundingSeconds = 3;
const strumSeconds = 1.6;
const attentionSeconds = 0.3;
const patienceSeconds = 600;

/**
 * Plays by sound alone until the guide is content: plucks the string asked for, hears what is said, and turns its peg as told.
 * `placeOf` says where a place of the guide lies: `[course, string]`.
 */
export function playByEar(
  random: Random,
  sounding: Sounding,
  player: Player & Manners,
  guide: EarGuide,
  placeOf: (place: number) => readonly [number, number],
): Outcome {
  const hop = Math.round(hopSeconds * sounding.sampleRateHertz);
  const from = sounding.nowSeconds();
  const visits = new Map<number, number>();
  let [turns, at, hasTurned] = [0, -1, false];

  const wait = (seconds: number) => {
    for (let left = seconds; left > 0; left -= hopSeconds) guide.listen(sounding.next(hop));
  };
  const turn = (meantCents: number) => {
    const miss = Math.hypot(player.leastMissCents, Math.min(player.mostMissCents, player.missShare * Math.abs(meantCents)));
    turns += 1;
    if (!hasTurned) visits.set(at, (visits.get(at) ?? 0) + 1);
    hasTurned = true;
    sounding.turnPeg(...placeOf(at), meantCents + random.normal(miss));
    while (sounding.isTurning()) wait(hopSeconds);
  };
  /** Lets one pluck ring, and turns as told while it does. */
  const attend = () => {
    const until = sounding.nowSeconds() + soundingSeconds;
    let told = 0;
    for (let since = 0; sounding.nowSeconds() < until; since += hopSeconds) {
      wait(hopSeconds);
      const asked = guide.ask();
      if (asked === null || asked === 'strum' || asked.place !== at) return;
      told = asked.turnCents === null ? 0 : told + hopSeconds;
      if (asked.turnCents === null || told < player.reactionSeconds || since < attentionSeconds) continue;
      turn(asked.turnCents);
      told = 0;
    }
  };

  while (sounding.nowSeconds() < from + patienceSeconds) {
    const asked = guide.ask();
    const passes = Math.max(0, ...visits.values());
    if (asked === null) return { turns, passes, untilSeconds: sounding.nowSeconds(), isDone: true };
    if (asked === 'strum') {
      sounding.damp();
      wait(player.reachSeconds);
      sounding.strum();
      wait(strumSeconds);
      continue;
    }
    if (asked.place !== at) {
      [at, hasTurned] = [asked.place, false];
      wait(player.reachSeconds);
      if (random.chance(player.dampChance)) sounding.damp();
    }
    wait(pluckSeconds);
    sounding.pluck(...placeOf(at));
    attend();
  }
  return { turns, passes: Math.max(0, ...visits.values()), untilSeconds: sounding.nowSeconds(), isDone: false };
}

const pluckSeconds = 0.35;
