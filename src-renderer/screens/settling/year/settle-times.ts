import type { Overview } from '#shared/contract/index.ts';
import { expectedSettleSeconds, learnString } from '#shared/settling/index.ts';
import type { StringLesson } from '../../../stores/lessons.ts';
import { horizonSeconds } from '../../../stores/settling.ts';

/** How long a string takes to settle after the move that is told of, in seconds (null = more than 30 days): as it taught, and as is assumed of its kind. */
export type SettleTime = {
  readonly course: number;
  readonly string: number;
  readonly learned: number | null;
  readonly assumed: number | null;
};

/** Settle times are told for a tone down: the commonest move of a string (common practice). */
const moveCents = -200;

/** What every string's past taught of how long it takes to settle. */
export const settleTimes = ({ stringSet }: Overview, lessons: readonly StringLesson[], toleranceCents: number): readonly SettleTime[] =>
  lessons.flatMap(({ course, string, lesson, nowSeconds }) => {
    const fitted = stringSet.courses[course]?.strings[string];
    if (fitted === undefined) return [];
    const takes = (known: typeof lesson): number | null =>
      expectedSettleSeconds(
        { lesson: known, moves: [{ atSeconds: nowSeconds, cents: moveCents }], nowSeconds },
        { toleranceCents, horizonSeconds },
      );
    const { material, wound, daysSinceChange } = lesson.knowledge.string;
    const untaught = learnString({ string: { material, wound, daysSinceChange }, past: [], nowSeconds });
    return [{ course, string, learned: takes(lesson), assumed: takes(untaught) }];
  });
