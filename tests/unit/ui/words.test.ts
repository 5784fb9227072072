import { describe, expect, test } from 'vitest';
import { moveWords } from '../../../src-renderer/screens/retune/lines.ts';
import { stringWidth } from '../../../src-renderer/ui/string-width.ts';
import { amountWords, centsText, figure, halves, listed } from '../../../src-renderer/ui/words.ts';

describe('amounts in words', () => {
  test.each([
    [37, 'about a third of a semitone'],
    [-50, 'half a semitone'],
    [100, 'a semitone'],
    [197, 'a tone'],
    [-2, 'a hair'],
    [10, 'a tenth of a semitone'],
    [500, 'a fourth'],
  ])('%d c is %s', (cents, words) => {
    expect(amountWords(cents)).toBe(words);
  });

  test('cents have a decimal only where the reading is that sure', () => {
    expect(centsText(-1.63, 0.1)).toBe('1.6 c');
    expect(centsText(1.63, 0.5)).toBe('2 c');
    expect(centsText(36.63, 0.1)).toBe('37 c');
    expect(centsText(-0.03, 0.1)).toBe('under 0.1 c');
    expect(centsText(0.3, 1)).toBe('under 1 c');
  });

  test('numbers have a true minus and no minus zero', () => {
    expect([figure(-1.5, 1), figure(-0.01, 1), figure(12)]).toEqual(['−1.5', '0.0', '12']);
  });

  test('margins are told in halves', () => {
    expect([halves(3.4), halves(0.6), halves(11), halves(-1.6), halves(0)]).toEqual(['3½', '½', '11', '−1½', '0']);
  });

  test('lists end in “and”', () => {
    expect([listed([4, 3, 1]), listed([2]), listed([])]).toEqual(['4, 3 and 1', '2', '']);
  });
});

describe('a move in words', () => {
  test.each([
    [{ semitones: -2, cents: -198, turn: 0 }, 'loosen 2 semitones'],
    [{ semitones: 1, cents: 104, turn: 2 }, 'tighten 1 semitone'],
    [{ semitones: 0, cents: 14, turn: 1 }, 'tighten 14 c'],
    [{ semitones: 0, cents: 1, turn: null }, 'stays'],
  ])('%j', (line, words) => {
    expect(moveWords(line)).toBe(words);
  });

  test('strings are drawn by gauge, from 1.4 to 4 px', () => {
    expect([stringWidth(0.2), stringWidth(2)]).toEqual([1.4, 4]);
    expect(stringWidth(0.9)).toBeGreaterThan(stringWidth(0.6));
  });
});
