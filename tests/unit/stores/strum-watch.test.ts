import { describe, expect, test } from 'vitest';
import type { PitchEvent, RefusalReason } from '#shared/pitch/index.ts';
import { awaitStrum, isStrum, missed, strumRings, watchStrum } from '../../../src-renderer/stores/strum-watch.ts';

const refusal = (atSeconds: number, reason: RefusalReason): PitchEvent => ({ kind: 'refusal', atSeconds, reason });
const frame = (atSeconds: number, sincePluckSeconds: number | null): PitchEvent => ({
  kind: 'frame',
  atSeconds,
  sincePluckSeconds,
  hertz: 262,
  sigmaCents: 0.3,
  others: [],
  levelDecibels: -20,
  steady: true,
  driftCentsPerSecond: 0,
  inharmonicity: 0,
});
const rings = strumRings([[392], [262]]);

describe('waiting for a strum', () => {
  test('what still rings from the course before is none, with its pluck heard or not', () => {
    let watch = awaitStrum(10);
    for (const event of [frame(10.05, 0.8), frame(10.1, null), refusal(10.2, 'unclear')]) ({ watch } = watchStrum(watch, event, rings));
    expect(watch.beganAtSeconds).toBeNull();
  });

  test('a pluck after the question begins one, which is read once it has rung', () => {
    const { watch } = watchStrum(awaitStrum(10), refusal(11, 'attack'), rings);
    expect(watch.beganAtSeconds).toBe(11);
    expect(watchStrum(watch, frame(11.5, 0.5), rings).isReady).toBe(false);
    expect(watchStrum(watch, refusal(12.5, 'unclear'), rings).isReady).toBe(true);
  });

  test('double courses ring for two seconds at least', () => {
    expect(
      strumRings([
        [392, 392],
        [262, 262],
      ]).lastSeconds,
    ).toBeGreaterThanOrEqual(2);
  });

  test('one that is stopped too soon has to be played again', () => {
    const begun = watchStrum(awaitStrum(10), refusal(11, 'attack'), rings).watch;
    expect(watchStrum(begun, refusal(11.4, 'silence'), rings).watch).toEqual({ fromSeconds: 11.4, beganAtSeconds: null, misses: 1 });
  });

  test('a knock or a single string is none; after two such sounds the coach hears what there was', () => {
    const heard = (count: number) =>
      [0, 1, 2, 3].map((course) => [course < count ? { hertz: 300, sigmaCents: 0.2 } : { refusal: 'unclear' }]);
    const watch = awaitStrum(10);
    expect([isStrum(watch, heard(0)), isStrum(watch, heard(1)), isStrum(watch, heard(2))]).toEqual([false, false, true]);
    const tired = missed(missed(watch, { atSeconds: 12 }), { atSeconds: 15 });
    expect(isStrum(tired, heard(0))).toBe(true);
  });
});
