import type { Random } from '../strings/index.ts';
import type { VirtualInstrument } from './instrument.ts';

/** A player's hand and ear. All ASSUMED. */
export type Player = {
  readonly reactionSeconds: number;
  /** From one string and its peg to the next. */
  readonly reachSeconds: number;
  readonly turnCentsPerSecond: number;
  /** How far a turn misses: a share of it, up to `mostMissCents`, and always `leastMissCents`, as sigmas. */
  readonly missShare: number;
  readonly mostMissCents: number;
  readonly leastMissCents: number;
  /** What a frame claims, and its true spread over that. */
  readonly sigmaCents: number;
  readonly trueOverClaimed: number;
  /** Share of frames that are of something else. */
  readonly badShare: number;
};

/** A player drawn at random. */
export const drawPlayer = (random: Random): Player => ({
  reactionSeconds: random.between(0.5, 1.2),
  reachSeconds: random.between(1, 2.2),
  turnCentsPerSecond: random.between(40, 100),
  missShare: random.between(0.03, 0.1),
  mostMissCents: 12,
  leastMissCents: random.between(0.5, 1.6),
  sigmaCents: random.betweenLog(0.15, 0.6),
  trueOverClaimed: random.pick([0.7, 1, 1, 1.5]),
  badShare: random.pick([0, 0, 0.01]),
});

/** What whoever guides asks for: a string by its place, and how far its peg is to be turned (positive = tighten; null = pluck and wait). Null: done. */
export type Asked = { readonly place: number; readonly turnCents: number | null } | null;

export type HeardFrame = {
  readonly atSeconds: number;
  readonly place: number;
  readonly hertz: number;
  readonly sigmaCents: number;
  readonly steady: boolean;
};

/** Whoever guides: hears frames, and asks. */
export type Guide = { readonly hear: (frame: HeardFrame) => void; readonly ask: () => Asked };

/** What a retune took. `passes` is the most often that one string was gone back to and turned again. */
export type Outcome = { readonly turns: number; readonly passes: number; readonly untilSeconds: number; readonly isDone: boolean };

const frameSeconds = 0.05;
const soundingSeconds = 3;
const restlessSeconds = 0.25;
const glide = { cents: 3, seconds: 0.08 };
/** Nobody goes on for longer than this. */
const patienceSeconds = 600;

/** Plays until the guide is content: goes to the string asked for, plucks it, listens, and turns its peg as told. */
export function play(random: Random, instrument: VirtualInstrument, player: Player, guide: Guide, fromSeconds: number): Outcome {
  let [now, turns, at] = [fromSeconds, 0, -1];
  const visits = Array.from({ length: instrument.count }, () => 0);
  let hasTurned = false;

  const hear = (place: number, sincePluck: number, isTurning: boolean) => {
    const sharp = glide.cents * Math.exp(-sincePluck / glide.seconds);
    const isBad = random.chance(player.badShare);
    const off = isBad ? random.between(6, 40) * random.pick([-1, 1]) : random.normal(player.sigmaCents * player.trueOverClaimed);
    const hertz = instrument.hertzAt(place, now) * 2 ** ((sharp + off) / 1200);
    guide.hear({ atSeconds: now, place, hertz, sigmaCents: player.sigmaCents, steady: sincePluck > restlessSeconds && !isTurning });
  };

  while (now < fromSeconds + patienceSeconds) {
    const asked = guide.ask();
    if (asked === null) return { turns, passes: Math.max(...visits), untilSeconds: now, isDone: true };
    if (asked.place !== at) {
      [at, hasTurned] = [asked.place, false];
      now += player.reachSeconds;
    }
    now += pluckSeconds;
    let told = 0;
    for (let since = frameSeconds; since < soundingSeconds; since += frameSeconds) {
      now += frameSeconds;
      hear(at, since, false);
      const next = guide.ask();
      if (next === null || next.place !== at) break;
      told = next.turnCents === null ? 0 : told + frameSeconds;
      if (next.turnCents === null || told < player.reactionSeconds || since <= restlessSeconds) continue;
      since += stroke(next.turnCents, since);
      told = 0;
    }
  }
  return { turns, passes: Math.max(...visits), untilSeconds: now, isDone: false };

  /** One turn of the peg, heard while it goes; says how long it took. */
  function stroke(meantCents: number, since: number): number {
    const miss = Math.hypot(player.leastMissCents, Math.min(player.mostMissCents, player.missShare * Math.abs(meantCents)));
    const cents = meantCents + random.normal(miss);
    const seconds = Math.abs(cents) / player.turnCentsPerSecond;
    const parts = Math.max(1, Math.round(seconds / frameSeconds));
    turns += 1;
    if (!hasTurned) visits[at] = (visits[at] ?? 0) + 1;
    hasTurned = true;
    const gone = instrument.grip(at, cents, now);
    for (let part = 1; part <= parts; part += 1) {
      now += seconds / parts;
      instrument.move(at, gone / parts, now);
      if (part < parts) hear(at, since + (part * seconds) / parts, true);
    }
    return seconds;
  }
}

const pluckSeconds = 0.35;
