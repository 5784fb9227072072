import { createContext, useContext } from 'react';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Song } from '#shared/sets/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import type { Kin } from './relatives.ts';

/** What all rows of the list stand on. */
export type ListGround = {
  readonly overview: Overview;
  readonly others: readonly Overview[];
  /** The whole library, sifted or not. */
  readonly tunings: readonly Tuning[];
  readonly kin: Kin;
  readonly songs: readonly Song[];
  readonly settings: Settings;
  /** For every tuning that sounds like another one here: the names of the others. */
  readonly twins: ReadonlyMap<string, readonly string[]>;
  /** When each tuning was last gone to, in epoch milliseconds, where the list is in that order; else null. */
  readonly lastUsed: ReadonlyMap<string, number> | null;
  /** Between nut and saddle, in px; 0 until it is measured. */
  readonly boardWidth: number;
};

export const ListContext = createContext<ListGround | null>(null);

/** What the row stands on. Throws outside the list. */
export function useListGround(): ListGround {
  const ground = useContext(ListContext);
  if (ground === null) throw new Error('a row of tunings needs its list around it');
  return ground;
}
