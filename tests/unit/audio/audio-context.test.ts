import { describe, expect, test } from 'vitest';
import { watchSleep } from '../../../src-renderer/audio/audio-context.ts';
import { FakeContext } from './fake-world.ts';

describe('a context that sleeps', () => {
  test('is watched and woken by a click only as long as somebody watches', () => {
    const context = new FakeContext(48000, 'suspended');
    const page = new EventTarget();
    const told: boolean[] = [];
    const off = watchSleep(context as unknown as AudioContext, (asleep) => told.push(asleep), page);
    page.dispatchEvent(new Event('pointerdown'));
    context.become('interrupted');
    off();
    context.become('suspended');
    page.dispatchEvent(new Event('pointerdown'));
    page.dispatchEvent(new Event('keydown'));
    expect(told).toEqual([true, false, true]);
    expect(context.state).toBe('suspended');
  });

  test('a closed one is not called asleep', () => {
    const told: boolean[] = [];
    watchSleep(new FakeContext(48000, 'closed') as unknown as AudioContext, (asleep) => told.push(asleep), new EventTarget());
    expect(told).toEqual([false]);
  });
});
