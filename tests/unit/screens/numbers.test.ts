import { describe, expect, test } from 'vitest';
import { marginWords, worstMargin } from '../../../src-renderer/screens/margins.ts';
import { inLetters, readNumber } from '../../../src-renderer/screens/numbers.ts';

describe('numbers as a player types them', () => {
  test('a comma is a point, a true minus a minus', () => {
    expect(readNumber('0,57')).toBe(0.57);
    expect(readNumber(' −5 ')).toBe(-5);
    expect(readNumber('432.5')).toBe(432.5);
  });

  test('an empty line, a unit or two points are no number', () => {
    for (const text of ['', '  ', '432 mm', '4.3.2', 'e', '-']) expect(readNumber(text)).toBeNull();
  });

  test('small counts are written in letters', () => {
    expect(inLetters(6)).toBe('six');
    expect(inLetters(13)).toBe('13');
  });
});

describe('margins', () => {
  const pull = { newtons: 40, slackIn: null, breakIn: null, breakShare: null };

  test('the margin that is used up first is told, whichever side it is on', () => {
    expect(
      worstMargin([
        { ...pull, slackIn: 3.4, breakIn: 7 },
        { ...pull, slackIn: 5, breakIn: 2.6 },
      ]),
    ).toEqual({ side: 'break', semitones: 2.6 });
    expect(
      worstMargin([
        { ...pull, slackIn: 1.4 },
        { ...pull, breakIn: 2.6 },
      ]),
    ).toEqual({ side: 'slack', semitones: 1.4 });
  });

  test('where no string’s figures are known nothing is claimed', () => {
    expect(worstMargin([pull, pull])).toBeNull();
  });

  test('a margin is in halves of a semitone, and one that is used up says what that means', () => {
    expect(marginWords({ side: 'slack', semitones: 1.4 })).toBe('slack in 1½');
    expect(marginWords({ side: 'break', semitones: 4.6 })).toBe('break in 4½');
    expect(marginWords({ side: 'break', semitones: -0.2 })).toBe('past the limit for breaking');
  });
});
