import type { Overview } from '#shared/contract/index.ts';
import type { Effect } from '#shared/guidance/index.ts';
import { type Reading, readingRow, type Turn, turnRow } from '#shared/log/index.ts';
import type { TuningHere } from './strings.ts';

/** What the coach wants written down of a retune after one step, as rows of the log; all of one moment, so that no reading comes before its turn. */
export function retuneRows(
  { id: retuneId, overview, to }: { readonly id: string; readonly overview: Overview; readonly to: TuningHere },
  effects: readonly Effect[],
): { readonly readings: readonly Reading[]; readonly turns: readonly Turn[] } {
  const stringSetId = overview.stringSet.id;
  const at = Date.now();
  const stamp = () => ({ id: crypto.randomUUID(), at });
  return {
    readings: effects.flatMap((effect) => {
      const wantedHertz = effect.kind === 'record' ? to.hertz[effect.course]?.[effect.string] : undefined;
      if (effect.kind !== 'record' || wantedHertz === undefined) return [];
      return [readingRow(effect, { ...stamp(), stringSetId, retuneId, wantedHertz, source: effect.source ?? 'pluck' })];
    }),
    turns: effects.flatMap((effect) => (effect.kind === 'turned' ? [turnRow(effect, { ...stamp(), retuneId })] : [])),
  };
}
