import { describe, expect, test } from 'vitest';
import { isSeen, noteSchema, warningOf } from '#shared/log/index.ts';
import { evening, remarks } from '../../support/wren.ts';

const place = { course: 1, string: 0 };
const [seen] = remarks.warningsSeen;
const retunes = [1, 2, 3, 4].map((startedAt) => ({ startedAt }));

describe('what there is to warn of', () => {
  test('is the last slip, or that the string keeps slipping; creep alone is nothing', () => {
    expect(warningOf({ slips: [], keepsSlipping: false }, retunes)).toBeNull();
    expect(warningOf({ slips: [{ atSeconds: 5 }, { atSeconds: 7 }], keepsSlipping: false }, retunes)).toEqual({
      kind: 'slips',
      since: 7000,
    });
    expect(warningOf({ slips: [{ atSeconds: 7 }], keepsSlipping: true }, retunes)).toEqual({ kind: 'keeps-slipping', since: 7000 });
  });

  test('with no slip since the last retune, is told from the last three', () => {
    expect(warningOf({ slips: [], keepsSlipping: true }, retunes)).toEqual({ kind: 'keeps-slipping', since: 2 });
    expect(warningOf({ slips: [], keepsSlipping: true }, [])).toEqual({ kind: 'keeps-slipping', since: 0 });
  });
});

describe('a warning is seen', () => {
  const since = evening;
  test('when the player said so after it arose, of that very string', () => {
    const later = { ...seen!, at: since };
    expect(isSeen({ kind: 'slips', since }, place, [later])).toBe(true);
    expect(isSeen({ kind: 'slips', since }, place, [{ ...later, at: since - 1 }])).toBe(false);
    expect(isSeen({ kind: 'slips', since }, { course: 2, string: 0 }, [later])).toBe(false);
  });

  test('the worse one stands for the lesser, not the other way round', () => {
    const worse = { ...seen!, at: since, kind: 'keeps-slipping' as const };
    expect(isSeen({ kind: 'slips', since }, place, [worse])).toBe(true);
    expect(isSeen({ kind: 'keeps-slipping', since }, place, [{ ...seen!, at: since }])).toBe(false);
  });
});

test('a note has words, unless it takes another back', () => {
  const [note] = remarks.notes;
  expect(noteSchema.safeParse({ ...note, words: '  ' }).success).toBe(false);
  expect(noteSchema.safeParse({ ...note, words: '', replaces: 'note-0' }).success).toBe(true);
});
