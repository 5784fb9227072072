import { pitchMidi } from '#shared/music/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import type { TuningRow } from './tuning-rows.ts';

/** How a tuning sounds on the instrument in hand, as a text that is alike for those that sound alike; null where it cannot be taken. */
const soundOf = ({ tuning, here }: TuningRow): string | null =>
  here === null
    ? null
    : here.to.pitches.map((strings, course) => `${strings.map(pitchMidi).join('·')} ${tuning.courses[course]?.offsetCents ?? 0}`).join(' ');

/** For every tuning that sounds like another one on the instrument in hand, by its id: the names of the others. */
export function alike(rows: readonly TuningRow[]): ReadonlyMap<string, readonly string[]> {
  const bySound = new Map<string, Tuning[]>();
  for (const row of rows) {
    const sound = soundOf(row);
    if (sound === null) continue;
    const those = bySound.get(sound);
    if (those === undefined) bySound.set(sound, [row.tuning]);
    else those.push(row.tuning);
  }
  const found = new Map<string, readonly string[]>();
  for (const those of bySound.values())
    if (those.length > 1)
      for (const one of those)
        found.set(
          one.id,
          those.filter((other) => other !== one).map(({ name }) => name),
        );
  return found;
}
