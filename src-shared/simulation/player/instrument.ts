import { creepCents, drawString, eventCents, type Event, type Random, type VirtualString } from '../strings/index.ts';
import type { Move, StringFacts } from '#shared/settling/index.ts';
import { type Body, drawBody, pullsOn } from './body.ts';
import { drawPeg, type Peg, turned } from './peg.ts';

/** What is drawn around: each string's facts, its pull at the pitch it is strung to, and its stiffness lengthwise (any unit). */
export type InstrumentFacts = {
  readonly strings: readonly {
    readonly facts: StringFacts;
    readonly hertz: number;
    readonly newtons: number;
    readonly stiffness: number;
  }[];
  /** The average share of the body; drawn widely where left out. */
  readonly averageShare?: number;
  /** The chance that a turned peg slips within the next half hour. */
  readonly slipChance: number;
};

/** An instrument that remembers every turn. Seconds are on one clock that must not run back. */
export type VirtualInstrument = {
  readonly count: number;
  /** Pitch of a string's first partial at a moment. */
  readonly hertzAt: (place: number, atSeconds: number) => number;
  /** How far the peg will take its string when the hand means so many cents; it may slip later. */
  readonly grip: (place: number, cents: number, atSeconds: number) => number;
  /** Moves a string by exactly so many cents; the others give. */
  readonly move: (place: number, cents: number, atSeconds: number) => void;
};

const pullRatio = (cents: number) => 2 ** (cents / 600);

/** Draws an instrument with its strings at rest at `atSeconds`. */
export function drawInstrument(
  random: Random,
  { strings, averageShare, slipChance }: InstrumentFacts,
  atSeconds: number,
): VirtualInstrument {
  const drawn: readonly VirtualString[] = strings.map(({ facts }) => drawString(random, facts));
  const pegs: readonly Peg[] = strings.map(() => drawPeg(random));
  const body: Body = drawBody(
    random,
    strings.map(({ stiffness }) => stiffness),
    averageShare,
  );
  const rest = strings.map(({ newtons }) => newtons);
  const strung = strings.map(({ facts: { daysSinceChange } }) => (daysSinceChange === null ? null : atSeconds - daysSinceChange * 86_400));
  const weather: Event = { kind: 'ramp', fromSeconds: atSeconds, untilSeconds: atSeconds + 3600, cents: random.normal(1.5) };
  const moves: Move[][] = strings.map(() => []);
  const slips: Event[][] = strings.map(() => []);
  const lastDirection = strings.map(() => 0);
  let pegNewtons: readonly number[] = rest;
  let pulls: readonly number[] = rest;

  const elastic = (place: number) => 600 * Math.log2((pulls[place] ?? 1) / (rest[place] ?? 1));
  const carried = (place: number, at: number) =>
    creepCents(drawn[place] as VirtualString, moves[place] ?? [], at, strung[place] ?? null) +
    [weather, ...(slips[place] ?? [])].reduce((sum, event) => sum + eventCents(event, at), 0);
  const hertzAt = (place: number, at: number) => (strings[place]?.hertz ?? 0) * 2 ** ((elastic(place) + carried(place, at)) / 1200);

  /** Takes one string by so many cents; the others give, and creep under what they lost or gained. */
  const take = (place: number, cents: number, at: number) => {
    const wanted = (pulls[place] ?? 0) * pullRatio(cents);
    const before = strings.map((_, index) => elastic(index));
    // The peg makes up for what the body gives under its own string: what is asked is what is heard.
    for (let round = 0; round < 4; round += 1) {
      const lack = wanted - (pulls[place] ?? 0);
      pegNewtons = pegNewtons.map((peg, index) => (index === place ? peg + lack : peg));
      pulls = pullsOn(body, pegNewtons, rest);
    }
    for (const [index, was] of before.entries()) remember(moves[index] ?? [], { atSeconds: at, cents: elastic(index) - was });
  };
  return {
    count: strings.length,
    hertzAt,
    move: take,
    grip: (place, cents, at) => {
      const gone = turned(random, pegs[place] as Peg, cents, lastDirection[place] ?? 0);
      lastDirection[place] = Math.sign(cents);
      if (random.chance(slipChance))
        slips[place]?.push({ kind: 'slip', atSeconds: at + random.betweenLog(2, 1800), cents: -random.between(4, 15) });
      return gone;
    },
  };
}

/** Moves of one moment are one move to the string. */
function remember(moves: Move[], move: Move): void {
  const last = moves.at(-1);
  if (last !== undefined && move.atSeconds - last.atSeconds < oneMomentSeconds)
    moves.splice(-1, 1, { ...last, cents: last.cents + move.cents });
  else moves.push(move);
}

const oneMomentSeconds = 1;
