import { startTransition, useEffect, useMemo, useState } from 'react';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Song } from '#shared/sets/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { alike } from './alike.ts';
import { familiesOf, type Kin, noKin, repeatedOf } from './relatives.ts';
import { searchTexts } from './sieve.ts';
import { readAhead, type TuningRow, tuningRows } from './tuning-rows.ts';

type Likeness = { readonly kin: Kin; readonly twins: ReadonlyMap<string, readonly string[]> };

const unknown: Likeness = { kin: noKin, twins: new Map() };
/** What was found of the rows that were gone through last. */
const latest = new WeakMap<readonly TuningRow[], Likeness>();

const nextTask = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** Goes through the library, a part of the work in each task of the window. */
async function likenessOf(rows: readonly TuningRow[], tunings: readonly Tuning[]): Promise<Likeness> {
  await nextTask();
  const repeated = repeatedOf(tunings);
  await nextTask();
  const families = familiesOf(tunings);
  await nextTask();
  const likeness = { kin: { repeated, families }, twins: alike(rows) };
  latest.set(rows, likeness);
  return likeness;
}

/** Which rows are the same tuning, or sound the same. It comes once the rows are painted; until then what was known before. */
function useLikeness(rows: readonly TuningRow[], tunings: readonly Tuning[]): Likeness {
  const [found, setFound] = useState(latest.get(rows) ?? unknown);
  useEffect(() => {
    let isWanted = true;
    const take = (likeness: Likeness): void => startTransition(() => (isWanted ? setFound(likeness) : undefined));
    const known = latest.get(rows);
    if (known === undefined) void likenessOf(rows, tunings).then(take);
    else take(known);
    return () => {
      isWanted = false;
    };
  }, [rows, tunings]);
  return found;
}

/** Everything that is worked out once for a library on an instrument, however it is then searched. */
export function useLibraryRows(overview: Overview, tunings: readonly Tuning[], songs: readonly Song[], settings: Settings) {
  const rows = tuningRows(overview, tunings, settings);
  const textOf = useMemo(() => searchTexts(songs), [songs]);
  const likeness = useLikeness(rows, tunings);
  useEffect(
    () =>
      readAhead(rows, (row) => {
        textOf(row);
        void row.here?.chord;
      }),
    [rows, textOf],
  );
  return { rows, textOf, ...likeness };
}
