import { describe, expect, test } from 'vitest';
import { inTurn } from '../../../src-renderer/stores/in-turn.ts';

const wanted = new AbortController().signal;

describe('work that the host gets in turn', () => {
  test('is begun when what came before is done, and goes on after a failure', async () => {
    const done: string[] = [];
    const { promise: first, resolve: finishFirst } = Promise.withResolvers<void>();
    const one = inTurn(wanted, () => first.then(() => void done.push('one')));
    const two = inTurn(wanted, async () => {
      done.push('two');
      throw new Error('the host is gone');
    });
    const three = inTurn(wanted, async () => done.push('three'));
    await Promise.resolve();
    expect(done).toEqual([]);
    finishFirst();
    await one;
    await expect(two).rejects.toThrow('the host is gone');
    await three;
    expect(done).toEqual(['one', 'two', 'three']);
  });

  test('is left out where nobody waits for it any more when its turn comes', async () => {
    const { promise: before, resolve: finish } = Promise.withResolvers<void>();
    const leaving = new AbortController();
    let isDone = false;
    const first = inTurn(wanted, () => before);
    const second = inTurn(leaving.signal, async () => {
      isDone = true;
    });
    leaving.abort();
    finish();
    await first;
    await expect(second).rejects.toThrow(/abort/iu);
    expect(isDone).toBe(false);
  });
});
