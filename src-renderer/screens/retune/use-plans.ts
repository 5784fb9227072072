import { useEffect, useState } from 'react';
import type { Output, Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { type Plan, planRetune } from '../../stores/plan.ts';
import { strumsAtEnd } from '../../stores/strum-check.ts';
import { horizonSeconds } from '../../stores/settling.ts';

type Wanted = {
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly tuning: Tuning | null;
  readonly settings: Settings;
  readonly log: Output<'log.read'>;
  readonly now: number;
};

/** A retune planned with a lead until a moment, and without. */
type Plans = { readonly withLead: Plan; readonly withoutLead: Plan; readonly leadUntil: number };

/** A plan older than this is made anew, in milliseconds. */
const freshMilliseconds = 600_000;

function makePlans(wanted: Wanted): Plans | null {
  const leadUntil = wanted.now + horizonSeconds * 1000;
  const strumCheck = strumsAtEnd();
  const withLead = planRetune({ ...wanted, strumCheck, leadUntil });
  const withoutLead = withLead === null ? null : planRetune({ ...wanted, strumCheck, leadUntil: null });
  return withLead === null || withoutLead === null ? null : { withLead, withoutLead, leadUntil };
}

/**
 * The plans of a retune. What the log teaches of every string takes up to some hundred milliseconds to work out: the page is shown first (`known` is
 * null until then), and it is worked out again only when something changed. `make` makes them now, to another tuning where one is given.
 */
export function usePlans(wanted: Wanted): { readonly known: Plans | null; readonly make: (to?: Tuning) => Plans | null } {
  const { overview, tunings, tuning, settings, log } = wanted;
  const [known, setKnown] = useState<Plans | null>(null);
  const age = Math.floor(wanted.now / freshMilliseconds);
  useEffect(() => {
    const timer = setTimeout(() => setKnown(makePlans({ overview, tunings, tuning, settings, log, now: Date.now() })));
    return () => clearTimeout(timer);
    // `age` makes it anew once in a while.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [overview, tunings, tuning, settings, log, age]);
  return { known, make: (to) => makePlans(to === undefined ? wanted : { ...wanted, tuning: to }) };
}
