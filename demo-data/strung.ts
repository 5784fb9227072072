import { homePitches, type Instrument, type StringSet } from '#shared/instruments/index.ts';
import { pitchHertz } from '#shared/music/index.ts';
import { creepCents, eventCents, type Event, type VirtualString } from '#shared/simulation/strings/index.ts';
import { carry, wantedHertz, type Tuning } from '#shared/tunings/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { couplingShare, creepRates, demoString } from './creep.ts';

const concertPitch = hertz(440);
const daySeconds = 86_400;

/** One string on its instrument, with all that was done to it. Seconds count up to the moment of loading, which is 0. */
type StrungString = {
  readonly string: VirtualString;
  readonly homeHertz: number;
  readonly startCents: number;
  readonly moves: { atSeconds: number; cents: number }[];
  readonly events: Event[];
};

/** An instrument as it is strung with one of its string sets. */
export type Strung = {
  readonly instrument: Instrument;
  readonly set: StringSet;
  readonly fittedAtSeconds: number;
  readonly strings: readonly StrungString[];
  readonly weatherPhase: number;
};

const isDemo = (id: string): id is keyof typeof creepRates => Object.hasOwn(creepRates, id);

/** How far a new string was pulled up on the day that it was fitted, in cents: it creeps flat from that for weeks. */
const fittingCents = 400;

/** When the log begins; strings that are older have been kept at home until then. */
const logBeginsSeconds = -365 * daySeconds;

/** Strings an instrument with strings that sit in their home tuning: since they were fitted, or since the log began. */
export function strung(instrument: Instrument, set: StringSet, weatherPhase: number): Strung {
  const { id } = instrument;
  if (!isDemo(id)) throw new RangeError(`no creep rates for ${id}`);
  const fittedAtSeconds = -set.fittedAt / 1000;
  const homes = homePitches(set).flat();
  const strings = set.courses.flatMap(({ strings }) => strings);
  return {
    instrument,
    set,
    fittedAtSeconds,
    weatherPhase,
    strings: strings.map(({ material, wound }, course) => {
      const home = homes[course];
      if (home === undefined) throw new RangeError(`course ${course} of ${set.id} has no home`);
      const string = demoString(id, course, { material, wound, daysSinceChange: null });
      const moves = [{ atSeconds: fittedAtSeconds, cents: fittingCents }];
      const creptBefore = creepCents(string, moves, Math.max(fittedAtSeconds, logBeginsSeconds), fittedAtSeconds);
      return { string, homeHertz: pitchHertz(home, concertPitch), startCents: -fittingCents - creptBefore, moves, events: [] };
    }),
  };
}

const wave = (atSeconds: number, days: number, phase: number): number => Math.sin((2 * Math.PI * atSeconds) / (days * daySeconds) + phase);

/** What the weather does to all strings of an instrument, in cents: a few days of damp, a heated winter. */
const weatherCents = (atSeconds: number, phase: number): number => 1.3 * wave(atSeconds, 11, phase) + 2.2 * wave(atSeconds, 365, phase / 3);

/** Where a string is, in cents from its home pitch. */
export function pitchCents({ strings, fittedAtSeconds, weatherPhase }: Strung, course: number, atSeconds: number): number {
  const here = strings[course];
  if (here === undefined) throw new RangeError(`there is no course ${course}`);
  const turned = here.moves.reduce((sum, move) => (move.atSeconds <= atSeconds ? sum + move.cents : sum), here.startCents);
  const befallen = here.events.reduce((sum, event) => sum + eventCents(event, atSeconds), 0);
  return turned + befallen + creepCents(here.string, here.moves, atSeconds, fittedAtSeconds) + weatherCents(atSeconds, weatherPhase);
}

/** Turns a peg; the other strings give way a little. */
export function turnPeg({ strings }: Strung, course: number, atSeconds: number, cents: number): void {
  for (const [other, { moves, events }] of strings.entries()) {
    if (other === course) moves.push({ atSeconds, cents });
    else events.push({ kind: 'coupling', atSeconds, cents: -couplingShare * cents });
  }
}

/** What a tuning wants of an instrument: hertz per course, and the same in cents from home. */
export function wantedOf(
  { set, strings }: Strung,
  tuning: Tuning,
): { readonly hertz: readonly number[]; readonly cents: readonly number[] } {
  const carried = carry(tuning, homePitches(set));
  if (carried === null) throw new RangeError(`${tuning.name} does not go onto ${set.id}`);
  const wanted = wantedHertz(carried.pitches, tuning.courses, concertPitch).flat();
  return { hertz: wanted, cents: wanted.map((pitch, course) => centsBetween(pitch, hertz(strings[course]?.homeHertz ?? pitch))) };
}
