import { useNavigate, useSearch } from '@tanstack/react-router';
import type { Overview } from '#shared/contract/index.ts';
import { useLibrary } from './library.ts';

const remembered = 'stillstring.instrument';

/** The instrument in the player's hands: the address names it, else the one used last, else the first. Null while there is none. */
export function useChosenInstrument(): Overview | null {
  const { on } = useSearch({ strict: false });
  const { data } = useLibrary('overview.read', {});
  const byId = (id: string | null | undefined): Overview | undefined => data?.find(({ instrument }) => instrument.id === id);
  return byId(on) ?? byId(localStorage.getItem(remembered)) ?? data?.[0] ?? null;
}

/** Takes another instrument into the hands; the address follows. */
export function useChooseInstrument(): (id: string) => void {
  const navigate = useNavigate();
  return (id) => {
    localStorage.setItem(remembered, id);
    void navigate({ to: '.', search: { on: id } });
  };
}
