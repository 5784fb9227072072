import { describe, expect, test } from 'vitest';
import type { CoursePicture } from '../../../../src-renderer/charts/picture.ts';
import { centsLabels, slipLabels, turnLabels } from '../../../../src-renderer/screens/settling/labels.ts';

const axis = { kind: 'linear', from: 0, until: 600 } as const;
const picture = (given: Partial<CoursePicture> = {}): CoursePicture => ({
  axis,
  lowestCents: -14,
  highestCents: 14,
  toleranceCents: 3,
  stringWidth: 2,
  strings: [],
  frets: [],
  ownTurns: [],
  otherTurns: [],
  slips: [],
  now: 300,
  ahead: null,
  ...given,
});
const timeOf = (seconds: number): string => `20:${String(Math.floor(seconds / 10)).padStart(2, '0')}`;

const timesOf = (ownTurns: readonly number[]) => turnLabels(picture({ ownTurns }), timeOf, 600).map(({ words }) => words);

describe('the words at slips', () => {
  test('stand after their mark, or before it where the next one is near', () => {
    const slips = [
      { seconds: 100, cents: -5 },
      { seconds: 300, cents: -8 },
      { seconds: 320, cents: 3 },
    ];
    expect(slipLabels(slips, axis, 600).map(({ words, side, share }) => [words, side, Math.round(share * 600)])).toEqual([
      ['down 5', 'after', 100],
      ['down 8', 'before', 300],
      ['up 3', 'after', 320],
    ]);
  });

  test('stand before a mark at the saddle', () => {
    expect(slipLabels([{ seconds: 590, cents: -5 }], axis, 600)[0]?.side).toBe('before');
  });
});

describe('the times of peg moves', () => {
  test('are named together where the moves are close, once a minute', () => {
    expect(timesOf([50, 52])).toEqual(['20:05']);
    expect(timesOf([50, 72])).toEqual(['20:05, 20:07']);
    expect(timesOf([50, 61, 72])).toEqual(['20:05 to 20:07']);
    expect(timesOf([50, 300])).toEqual(['20:05', '20:30']);
  });

  test('stand clear of the ticks of other pegs', () => {
    const [label] = turnLabels(picture({ ownTurns: [50], otherTurns: [40, 60, 70] }), timeOf, 600);
    expect(label).toMatchObject({ words: '20:05', share: 70 / 600, side: 'after' });
  });

  test('give way to the other pegs where the string’s own was left alone', () => {
    expect(turnLabels(picture({ otherTurns: [40, 50] }), timeOf, 600)).toMatchObject([{ words: 'other pegs turned', share: 50 / 600 }]);
    expect(turnLabels(picture(), timeOf, 600)).toEqual([]);
  });
});

describe('the cents beside a board', () => {
  test('name ten above, wanted and ten below', () => {
    expect(centsLabels(picture(), 130).map(({ cents }) => cents)).toEqual([-10, 0, 10]);
    expect(centsLabels(picture(), 130).find(({ cents }) => cents === 0)?.share).toBe(0.5);
  });

  test('go on where a string has fallen farther, in twenties where ten would be too close', () => {
    const fallen = picture({ lowestCents: -34 });
    expect(centsLabels(fallen, 130).map(({ cents }) => cents)).toEqual([-30, -20, -10, 0, 10]);
    expect(centsLabels(fallen, 60).map(({ cents }) => cents)).toEqual([-20, 0]);
  });
});
