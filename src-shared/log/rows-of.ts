import { centsBetween, hertz } from '#shared/units/index.ts';
import type { Reading, ReadingSource, Turn } from './rows.ts';

type Place = { readonly course: number; readonly string: number };
type Stamp = { readonly id: string; readonly at: number };

/** The row for a string that was read: `deviationCents` follows from what was heard and what was wanted. */
export const readingRow = (
  { course, string, hertz: heard, sigmaCents }: Place & { readonly hertz: number; readonly sigmaCents: number },
  {
    id,
    at,
    ...of
  }: Stamp & {
    readonly stringSetId: string;
    readonly retuneId: string | null;
    readonly wantedHertz: number;
    readonly source: ReadingSource;
  },
): Reading => ({
  ...of,
  id,
  at,
  course,
  string,
  hertz: heard,
  deviationCents: centsBetween(hertz(heard), hertz(of.wantedHertz)),
  sigmaCents,
});

/** The row for a peg that was turned. */
export const turnRow = (
  { course, string, cents }: Place & { readonly cents: number },
  { id, at, retuneId }: Stamp & { readonly retuneId: string },
): Turn => ({
  id,
  retuneId,
  at,
  course,
  string,
  cents,
});
