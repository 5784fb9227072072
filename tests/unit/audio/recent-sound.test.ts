import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createRecentSound } from '../../../src-renderer/audio/recent-sound.ts';

describe('the sound kept for a strum check', () => {
  test('is the newest part of everything heard, whatever the blocks it came in', () => {
    const blocks = fc.array(fc.integer({ min: 0, max: 23 }), { maxLength: 12 });
    fc.assert(
      fc.property(blocks, fc.integer({ min: 1, max: 17 }), fc.nat(40), (lengths, limit, count) => {
        const recent = createRecentSound(limit);
        const all: number[] = [];
        for (const length of lengths) {
          const block = Array.from({ length }, (_, index) => all.length + index + 1);
          all.push(...block);
          recent.push(Float32Array.from(block));
        }
        const wanted = Math.min(count, limit);
        expect([...recent.last(count)]).toEqual(wanted === 0 ? [] : all.slice(-wanted));
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  test('begins anew after a break', () => {
    const recent = createRecentSound(8);
    recent.push(Float32Array.of(1, 2, 3));
    recent.clear();
    recent.push(Float32Array.of(4));
    expect([...recent.last(8)]).toEqual([4]);
  });
});
