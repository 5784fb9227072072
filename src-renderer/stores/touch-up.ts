import type { Host, Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { freshOverview } from './fresh.ts';
import { planRetune } from './plan.ts';
import { beginRetune } from './retuning.ts';
import type { SoundChoice } from './session.ts';
import { horizonSeconds, retunesRead } from './settling.ts';
import { stateOf } from './strings.ts';

type Begin = {
  readonly host: Host;
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly settings: Settings;
  readonly sound: SoundChoice;
};

/** Brings an instrument back onto the tuning that it is already in: any course, no plan. A course that was left elsewhere stays there. */
export async function beginTouchUp({ host, overview: shown, tunings, settings, sound }: Begin): Promise<void> {
  const overview = await freshOverview(host, shown);
  const log = await host.ask('log.read', { stringSetId: overview.stringSet.id, retunes: retunesRead });
  const tuning = tunings.find(({ id }) => id === overview.instrument.tuningId) ?? null;
  const now = Date.now();
  // A few courses, plucked in any order: there is no pass that a strum could end.
  const { apart: stays } = stateOf(overview, tunings, settings);
  const plan = planRetune({ overview, tunings, tuning, settings, log, leadUntil: null, stays, strumCheck: false, now });
  if (plan === null) return;
  await beginRetune({ host, overview, tuning, plan, sound, settings, until: now + horizonSeconds * 1000, isTouchUp: true });
}
