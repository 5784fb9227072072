import type { Output, Overview, Settings } from '#shared/contract/index.ts';
import { type CoachState, learn, type Lessons, type Setup, start } from '#shared/guidance/index.ts';
import { retuneHistories } from '#shared/log/index.ts';
import { coachInstrument, daysSinceChanged } from '#shared/strung/index.ts';
import { spellTogether } from '#shared/music/index.ts';
import { type Tuning, wantedHertz } from '#shared/tunings/index.ts';
import { hertz, hertzToMidi } from '#shared/units/index.ts';
import { coursesApart, type State, stateOf, type TuningHere, tuningOn } from './strings.ts';
import { undershootOf } from './undershoot.ts';

/** From where to where, and where the strings are now. */
export type Way = {
  readonly from: TuningHere;
  readonly to: TuningHere;
  readonly present: readonly (readonly number[])[];
};

/** A retune before it begins: its way, and the coach that would lead it. */
export type Plan = Way & { readonly coach: CoachState };

type Wanted = {
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly tuning: Tuning | null;
  readonly settings: Settings;
  /** The log of the string set, to learn from. */
  readonly log: Output<'log.read'>;
  /** Until when the strings are to settle onto their pitch, in epoch milliseconds; null = no lead. */
  readonly leadUntil: number | null;
  /** Courses that stay where they are, whatever the tuning has them at. None where left out. */
  readonly stays?: readonly number[];
  /** Whether all strings are heard in one strum in place of plucking each once more. */
  readonly strumCheck: boolean;
  readonly now: number;
};

/** How far an aim may lie beside its pitch for the sake of settling, in cents. */
const leadCapCents = 15;

/** The way of a retune, known at once; null where the instrument cannot take the tuning's moves. */
export function wayTo({ overview, tunings, tuning, settings }: Pick<Wanted, 'overview' | 'tunings' | 'tuning' | 'settings'>): Way | null {
  const to = tuningOn(overview, tuning, settings);
  if (to === null) return null;
  const state = stateOf(overview, tunings, settings);
  return { from: asItStands(state, settings.referenceHertz), to, present: state.present };
}

/**
 * The tuning that an instrument is in, a course that stands apart from it spelled where it is: A4 on its way from G4 is said to go from G4. As the tuning
 * has it where every course stands apart: then it is another reference pitch.
 */
export function asItStands({ tuning, present }: Pick<State, 'tuning' | 'present'>, referenceHertz: number): TuningHere {
  const apart = coursesApart(present, tuning.hertz);
  if (apart.length === 0 || apart.length === present.length) return tuning;
  const places = apart.flatMap((course) => (present[course] ?? []).map((at, string) => ({ course, string, at })));
  const spelled = spellTogether(places.map(({ at }) => Math.round(hertzToMidi(hertz(at), hertz(referenceHertz)))));
  const pitches = tuning.pitches.map((own, course) =>
    own.map((pitch, string) => spelled[places.findIndex((place) => place.course === course && place.string === string)] ?? pitch),
  );
  const spelledHertz = wantedHertz(pitches, null, hertz(referenceHertz));
  const heard = tuning.hertz.map((own, course) => (apart.includes(course) ? (spelledHertz[course] ?? own) : own));
  return { ...tuning, pitches, hertz: heard };
}

/** Plans a retune, which takes as long as the log is rich, up to some hundred milliseconds; null where the instrument cannot take the tuning's moves. */
export function planRetune({ log, leadUntil, now, strumCheck, stays = [], ...wanted }: Wanted): Plan | null {
  const whole = wayTo(wanted);
  if (whole === null) return null;
  const way = staying(whole, stays);
  const { overview, settings } = wanted;
  const { instrument, stringSet } = overview;
  const setup = {
    instrument: coachInstrument(instrument, stringSet, (course, string) =>
      daysSinceChanged(stringSet, log.changes, { course, string }, now),
    ),
    present: way.present,
    wanted: way.to.hertz,
    toleranceCents: settings.toleranceCents,
    atSeconds: now / 1000,
    lead: leadUntil === null ? null : { untilSeconds: leadUntil / 1000, capCents: leadCapCents },
    learned: { retunes: retuneHistories(log) },
    undershootCents: undershootOf(instrument),
    strumCheck,
  };
  return { ...way, coach: start(setup, learnt(log, setup)) };
}

const staying = ({ to, present, ...way }: Way, stays: readonly number[]): Way => ({
  ...way,
  to: { ...to, hertz: to.hertz.map((strings, course) => (stays.includes(course) ? (present[course] ?? strings) : strings)) },
  present,
});

/** What a log taught, and when that was worked out. */
type Learnt = { readonly atSeconds: number; readonly lessons: Lessons };
const known = new WeakMap<Output<'log.read'>, Learnt>();
/** What was learned stays good for so long, in seconds: strings get older. */
const goodSeconds = 600;

/** Learns from a log, once for all the plans that are made of it. */
function learnt(log: Output<'log.read'>, setup: Setup): Lessons {
  const kept = known.get(log);
  if (kept !== undefined && Math.abs(setup.atSeconds - kept.atSeconds) < goodSeconds) return kept.lessons;
  const lessons = learn(setup);
  known.set(log, { atSeconds: setup.atSeconds, lessons });
  return lessons;
}
