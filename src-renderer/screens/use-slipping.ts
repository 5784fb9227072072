import type { Overview } from '#shared/contract/index.ts';
import { useLibrary } from '../stores/library.ts';
import { useEveryVerdict } from '../stores/settling.ts';
import { type Slipping, slippingOf } from './slipping.ts';

const none: readonly Overview[] = [];
/** What holds until the settings are there. */
const usualToleranceCents = 3;

/** For any list in which instruments are named: what is to be told of one, by its id; null where nothing slips, or until that is known. */
export function useSlipping(): (instrumentId: string) => Slipping | null {
  const { data: overviews = none } = useLibrary('overview.read', {});
  const { data: settings } = useLibrary('settings.read', {});
  const verdicts = useEveryVerdict(overviews, settings?.toleranceCents ?? usualToleranceCents);
  return (instrumentId) => {
    const overview = overviews.find(({ instrument }) => instrument.id === instrumentId);
    return overview === undefined ? null : slippingOf(verdicts.get(instrumentId) ?? [], overview.stringSet.courses.length);
  };
}
