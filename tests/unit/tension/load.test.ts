import { describe, expect, test } from 'vitest';
import { cautions, cautionSentence, judgeLoad, pullAt, totalPull } from '#shared/tension/index.ts';
import { hertz, millimetres, newtons } from '#shared/units/index.ts';

describe('the load of all strings', () => {
  test.each([
    [100, 'within', 0],
    [114, 'within', 0.14],
    [115, 'caution', 0.15],
    [129, 'caution', 0.29],
    [130, 'confirm', 0.3],
    [80, 'within', -0.2],
  ])('%d N where home pulls 100 N: %s', (planned, verdict, rise) => {
    const load = judgeLoad(newtons(planned), newtons(100), null);
    expect(load.verdict).toBe(verdict);
    expect(load.rise).toBeCloseTo(rise, 9);
    expect(load.usual).toBeNull();
  });

  test('is also held against the totals published for the size', () => {
    expect(judgeLoad(newtons(165), newtons(150), [100, 158.9])).toMatchObject({ usual: 'above', verdict: 'caution' });
    expect(judgeLoad(newtons(210), newtons(200), [100, 158.9])).toMatchObject({ usual: 'above', verdict: 'confirm' });
    expect(judgeLoad(newtons(90), newtons(100), [100, 158.9])).toMatchObject({ usual: 'below', verdict: 'within' });
    expect(judgeLoad(newtons(150), newtons(150), [100, 158.9])).toMatchObject({ usual: 'within', verdict: 'within' });
  });

  test('sums the bands too, and is not known where one string is not', () => {
    const string = { material: 'nylon', wound: false, diameterMillimetres: 0.7, linearDensityKilogramsPerMetre: null } as const;
    const pull = pullAt(string, millimetres(430), hertz(330));
    const total = totalPull([pull, pull]);
    expect(total?.low).toBeCloseTo(2 * pull!.low, 9);
    expect(total?.high).toBeCloseTo(2 * pull!.high, 9);
    expect(totalPull([pull, null])).toBeNull();
  });
});

describe('cautions', () => {
  test('ids are given once, and each has a sentence', () => {
    expect(new Set(cautions.map(({ id }) => id)).size).toBe(cautions.length);
    for (const { id } of cautions) expect(cautionSentence(id)).toMatch(/^[A-Z].{20,}\.$/u);
  });

  test('they leave the decision to the maker and a luthier and promise nothing', () => {
    expect(cautionSentence('maker-decides')).toMatch(/maker.*luthier/u);
    for (const { sentence } of cautions) expect(sentence).not.toMatch(/\bsafe/iu);
  });
});
