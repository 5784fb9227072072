import { useNavigate } from '@tanstack/react-router';
import type { Overview } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import { carry, type Tuning } from '#shared/tunings/index.ts';
import { Choice } from '../../ui/choice.tsx';

type Props = { readonly overview: Overview; readonly tunings: readonly Tuning[]; readonly tuning: Tuning | null };

/** Another tuning that the instrument can take: the one that is planned stands beside it already. */
export function ChooseTuning({ overview, tunings, tuning }: Props) {
  const navigate = useNavigate();
  const fitting = tunings.filter((one) => one.name !== 'Home' && carry(one, homePitches(overview.stringSet)) !== null);
  const isHome = !fitting.some(({ id }) => id === tuning?.id);
  const others = fitting.filter(({ id }) => id !== tuning?.id).map(({ id, name }) => ({ value: id, words: name }));
  const options = isHome ? others : [{ value: 'home', words: 'Home' }, ...others];
  if (options.length === 0) return null;
  const choose = (id: string) =>
    void navigate({ to: '/retune', search: { on: overview.instrument.id, ...(id === 'home' ? {} : { to: id }) } });
  return <Choice label="Tuning to go to" hideLabel isPlain empty="Another tuning" value={null} options={options} onChange={choose} />;
}
