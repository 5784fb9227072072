import type { Overview, Settings } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { stateOf, tuningOn } from '../../stores/strings.ts';

/** What the choice calls the instrument's home. */
export const homeChoice = 'home';

/**
 * Where an instrument may go next, the likeliest first: home, then the tuning that it came from, then its favourites, then the others.
 * The tuning that it is in is not among them, nor any that would sound the same.
 */
export function nextTunings(
  overview: Overview,
  tunings: readonly Tuning[],
  settings: Settings,
): readonly { readonly value: string; readonly words: string }[] {
  const here = JSON.stringify(stateOf(overview, tunings, settings).tuning.pitches);
  const cameFrom = overview.lastRetune?.fromTuningId ?? null;
  const rank = ({ id, favourite }: Tuning): number => (id === cameFrom ? 0 : favourite ? 1 : 2);
  const home = JSON.stringify(homePitches(overview.stringSet));
  const others = tunings
    .toSorted((a, b) => rank(a) - rank(b))
    .flatMap((tuning) => {
      const there = tuningOn(overview, tuning, settings);
      const pitches = there === null ? null : JSON.stringify(there.pitches);
      return pitches === null || pitches === here || pitches === home ? [] : [{ value: tuning.id, words: tuning.name }];
    });
  return here === home ? others : [{ value: homeChoice, words: 'Home' }, ...others];
}
