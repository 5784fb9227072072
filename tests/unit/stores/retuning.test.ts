import { afterEach, describe, expect, test, vi } from 'vitest';
import type { Host } from '#shared/contract/index.ts';
import { beginRetune, endRetune, retuning, tell } from '../../../src-renderer/stores/retuning.ts';
import { wrenLed } from '../screens/retune/led.ts';
import { settings, tuningOf } from '../screens/wren.ts';

vi.mock('../../../src-renderer/stores/session.ts', () => ({
  listen: () => Promise.resolve(),
  onPitch: () => () => undefined,
  stopListening: () => undefined,
  cueLanded: () => undefined,
  session: { getState: () => ({ listening: null }) },
}));

const lantern = tuningOf('Lantern', 'G4 Bb3 Eb4 Bb4', 'G4 C4 E4 A4');
const asked: string[] = [];
const host = {
  ask: (name: string) => {
    asked.push(name);
    return Promise.resolve(null);
  },
  on: () => () => undefined,
} as unknown as Host;

/** A retune of Wren from home to Lantern E♭. */
async function begin(): Promise<void> {
  const { overview, from, to, coach } = wrenLed();
  const plan = { from, to, present: from.hertz, coach };
  const sound = { inputLabel: null, channel: 0 };
  await beginRetune({ host, overview, tuning: lantern, plan, sound, settings, until: Date.now() + 1, isTouchUp: false });
}

/** Skips whatever is asked for, the courses that were to stay among it. */
function skipAll(): void {
  for (let left = 8; left > 0 && retuning.getState().now?.finishedAt === null; left -= 1) tell(host, { kind: 'skip' });
}

describe('how a retune ends in the log', () => {
  afterEach(() => {
    endRetune();
    asked.length = 0;
  });

  test('one in which every course was skipped is begun and never finished', async () => {
    await begin();
    skipAll();
    expect(retuning.getState().now?.finishedAt).not.toBeNull();
    expect(asked).toContain('log.beginRetune');
    expect(asked).not.toContain('log.finishRetune');
  });

  test('one in which the courses stand in their places is finished', async () => {
    await begin();
    const { now } = retuning.getState();
    if (now === null) throw new Error('it was begun');
    const strings = now.coach.strings.map((one) => ({ ...one, presentHertz: one.wantedHertz }));
    retuning.setState({ now: { ...now, coach: { ...now.coach, strings } } });
    skipAll();
    expect(asked).toContain('log.finishRetune');
  });
});
