import type { Overview, Settings } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { tuningOn } from '../../stores/strings.ts';
import type { Ground } from './draft.ts';

/** A tuning is written as it is on the instrument in hand; where that cannot take it, as it was written. */
export function shownOn(tuning: Tuning, overview: Overview, settings: Settings): Pick<Ground, 'shown' | 'home'> {
  const here = tuningOn(overview, tuning, settings);
  if (here === null) return { shown: tuning.courses.map(({ pitches }) => pitches), home: tuning.home };
  return { shown: here.pitches, home: homePitches(overview.stringSet) };
}
