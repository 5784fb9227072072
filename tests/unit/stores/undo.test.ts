import { beforeEach, describe, expect, test, vi } from 'vitest';
import { forgetDone, noteDone, takeBackLast, undoing } from '../../../src-renderer/stores/undo.ts';

beforeEach(forgetDone);
const last = (): string | undefined => undoing.getState().done.at(-1)?.words;

describe('undo', () => {
  test('takes back the last thing first, then the one before it', async () => {
    const steps: string[] = [];
    noteDone('Removed Open C', () => Promise.resolve(steps.push('Open C is back')));
    noteDone('Changed Wren', () => Promise.resolve(steps.push('Wren is as she was')));
    expect(last()).toBe('Changed Wren');
    await takeBackLast();
    expect(last()).toBe('Removed Open C');
    await takeBackLast();
    await takeBackLast();
    expect(steps).toEqual(['Wren is as she was', 'Open C is back']);
  });

  test('that does not work says why, and can be tried again', async () => {
    const takeBack = vi.fn<() => Promise<unknown>>().mockRejectedValueOnce(new Error('The disk is full.')).mockResolvedValueOnce({});
    noteDone('Changed Wren', takeBack);
    await takeBackLast();
    expect([last(), undoing.getState().problem]).toEqual(['Changed Wren', 'Not undone: The disk is full.']);
    await takeBackLast();
    expect([last(), undoing.getState().problem]).toEqual([undefined, null]);
  });

  test('waits for the step back that is under way', async () => {
    const { promise, resolve } = Promise.withResolvers<undefined>();
    const takeBack = vi.fn(() => promise);
    noteDone('Changed Wren', takeBack);
    const [first, second] = [takeBackLast(), takeBackLast()];
    resolve(undefined);
    await Promise.all([first, second]);
    expect(takeBack).toHaveBeenCalledTimes(1);
  });

  test('goes back fifty steps and no further', () => {
    for (let step = 0; step < 60; step += 1) noteDone(`Step ${step}`, () => Promise.resolve());
    expect(
      undoing
        .getState()
        .done.map(({ words }) => words)
        .slice(0, 1),
    ).toEqual(['Step 10']);
  });
});
