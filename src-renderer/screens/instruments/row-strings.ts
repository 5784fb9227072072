import type { Overview, Settings } from '#shared/contract/index.ts';
import { lastHeard } from '#shared/log/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import type { StringVerdict } from '../../stores/settling.ts';
import type { TuningHere } from '../../stores/strings.ts';
import { beadKind } from '../../ui/bead.ts';
import { alongString } from '../../ui/scale.ts';
import type { SmallString } from '../../ui/small-board.tsx';

/**
 * The strings of an instrument on its small board: each bead as far from the middle as it was last heard from the tuning that it is in.
 * A string that was not heard since its last move has none.
 */
export const rowStrings = (
  { stringSet, lastReadings }: Overview,
  tuning: TuningHere,
  { toleranceCents }: Pick<Settings, 'toleranceCents'>,
  verdicts: readonly StringVerdict[],
): readonly (readonly SmallString[])[] =>
  stringSet.courses.map(({ strings }, course) =>
    strings.map(({ diameterMillimetres }, string) => {
      const isHeard = verdicts.some((one) => one.course === course && one.string === string && one.assessment.verdict !== 'unheard');
      const last = isHeard ? lastHeard(lastReadings, course, string) : null;
      const wanted = tuning.hertz[course]?.[string];
      const gauge = diameterMillimetres ?? 0.7;
      if (last === null || wanted === undefined) return { gauge, at: null, kind: 'unsure', isStill: true };
      const cents = centsBetween(hertz(last.hertz), hertz(wanted));
      return { gauge, at: alongString(cents), kind: beadKind(cents, last.sigmaCents, toleranceCents), isStill: false };
    }),
  );

/** Drawn px for a millimetre of scale length, so that the longest instrument fits the column. */
export function boardScale(scaleLengthsMillimetres: readonly number[]): number {
  const usual = 0.44;
  const column = 284;
  return Math.min(usual, column / Math.max(...scaleLengthsMillimetres, 1));
}
