// Settling: from the log of moves and readings to a verdict, a forecast and the reason, per string.
// Knows: creep, slips, coupling, weather, what a string's past taught. Must not know: files, clocks, instruments, screens, hertz.
// Add here: nothing but the room's door. A new cause of movement is a column in posterior.ts; a new law a line in laws.ts.
import { learnString } from './learning.ts';
import { assessString } from './verdict.ts';
import type { Assessment, Question } from './types.ts';

export type * from './types.ts';
export { expectedDriftCents, expectedSettleSeconds, type Plan } from './plan.ts';
export { latestRetune, type Retuned } from './backwards.ts';
export { leaveOrTakeHome, type Night, type Restlessness, type Tonight } from './tonight.ts';
export { whereToLook, type Hardware, type Look, type Place, type Slipping } from './look.ts';
export { learnString, type Lesson } from './learning.ts';
export { growthOf, settleSeconds, strainsOf, superposed, type CreepLaw, type Strain } from './creep.ts';
export { assumedRate, type CreepRate } from './prior.ts';
export { theilSen, type RobustLine } from './theil-sen.ts';

/**
 * Judges every string of one instrument at a moment. Readings are cents from wanted, oldest first; later ones than `nowSeconds` are not used.
 * Throws RangeError for a tolerance or horizon that is not above 0.
 * `assess({ courses: [log], nowSeconds, policy: { toleranceCents: 3, horizonSeconds: 1800 } })[0]?.verdict` → 'settling'.
 */
export function assess({ courses, nowSeconds, policy }: Question): readonly Assessment[] {
  if (!(policy.toleranceCents > 0)) throw new RangeError(`toleranceCents must be above 0; got ${policy.toleranceCents}`);
  if (!(policy.horizonSeconds > 0)) throw new RangeError(`horizonSeconds must be above 0; got ${policy.horizonSeconds}`);
  return courses.map((course, index) => {
    const others = courses.filter((_, other) => other !== index);
    return assessString({
      course,
      others,
      lesson: learnString({ string: course.string, past: course.past, nowSeconds }),
      nowSeconds,
      policy,
    });
  });
}
