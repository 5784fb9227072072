import type { Output, Overview } from '#shared/contract/index.ts';
import { stringHistory } from '#shared/log/index.ts';
import { expectedSettleSeconds, learnString, type Lesson } from '#shared/settling/index.ts';
import { daysSinceChanged } from '#shared/strung/index.ts';

/** One turn of a string's own peg, in seconds of the epoch and cents. */
type Turn = { readonly atSeconds: number; readonly cents: number };

/** What the past taught of one string, and its turns that still matter, oldest first. */
export type StringLesson = {
  readonly course: number;
  readonly string: number;
  readonly lesson: Lesson;
  readonly turns: readonly Turn[];
  readonly nowSeconds: number;
};

/** Turns that are older than this carry a string no further, in seconds. */
const rememberedSeconds = 4 * 86_400;

const known = new WeakMap<Output<'log.read'>, readonly StringLesson[]>();

/** What the log of a string set teaches of every string, from the player's eye down. It takes tens of milliseconds a string, once for each log. */
export function lessonsOf({ stringSet }: Overview, log: Output<'log.read'>, now: number): readonly StringLesson[] {
  const before = known.get(log);
  if (before !== undefined) return before;
  const nowSeconds = now / 1000;
  const lessons = stringSet.courses.flatMap(({ strings }, course) =>
    strings.map(({ material, wound }, string) => {
      // A lesson is about movement: one pitch for the whole of the latest stretch will do, whatever was wanted meanwhile.
      const { past, moves, readings } = stringHistory(log, course, string, log.retunes.at(-1)?.wantedHertz[course]?.[string]);
      const stretches = [...past, { moves, readings }];
      const lesson = learnString({
        string: { material, wound, daysSinceChange: daysSinceChanged(stringSet, log.changes, { course, string }, now) },
        past: stretches.filter((stretch) => stretch.readings.length > 0),
        nowSeconds,
      });
      const turns = stretches.flatMap((stretch) => stretch.moves).filter(({ atSeconds }) => atSeconds > nowSeconds - rememberedSeconds);
      return { course, string, lesson, turns, nowSeconds };
    }),
  );
  known.set(log, lessons);
  return lessons;
}

const planOf = ({ lesson, turns, nowSeconds }: StringLesson, more: readonly Turn[]) => ({ lesson, moves: [...turns, ...more], nowSeconds });

/** Seconds after a turn until the string moves no more than the tolerance within the horizon; null past 30 days. */
export const settleSeconds = (
  of: StringLesson,
  turn: Turn,
  policy: { readonly toleranceCents: number; readonly horizonSeconds: number },
): number | null => expectedSettleSeconds(planOf(of, [turn]), policy);
