import type { Output, Overview, Settings } from '#shared/contract/index.ts';
import { type CoachState, start } from '#shared/guidance/index.ts';
import { retuneHistories } from '#shared/log/index.ts';
import { coachInstrument, daysSinceChanged } from '#shared/strung/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { stateOf, type TuningHere, tuningOn } from './strings.ts';

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
  readonly now: number;
};

/** How far an aim may lie beside its pitch for the sake of settling, in cents. */
const leadCapCents = 15;

/** The way of a retune, known at once; null where the instrument cannot take the tuning's moves. */
export function wayTo({ overview, tunings, tuning, settings }: Pick<Wanted, 'overview' | 'tunings' | 'tuning' | 'settings'>): Way | null {
  const to = tuningOn(overview, tuning, settings);
  if (to === null) return null;
  const { tuning: from, present } = stateOf(overview, tunings, settings);
  return { from, to, present };
}

/** Plans a retune, which takes as long as the log is rich, up to some hundred milliseconds; null where the instrument cannot take the tuning's moves. */
export function planRetune({ log, leadUntil, now, ...wanted }: Wanted): Plan | null {
  const way = wayTo(wanted);
  if (way === null) return null;
  const { overview, settings } = wanted;
  const { instrument, stringSet } = overview;
  const coach = start({
    instrument: coachInstrument(instrument, stringSet, (course, string) =>
      daysSinceChanged(stringSet, log.changes, { course, string }, now),
    ),
    present: way.present,
    wanted: way.to.hertz,
    toleranceCents: settings.toleranceCents,
    atSeconds: now / 1000,
    lead: leadUntil === null ? null : { untilSeconds: leadUntil / 1000, capCents: leadCapCents },
    learned: { retunes: retuneHistories(log) },
  });
  return { ...way, coach };
}
