import { describe, expect, test } from 'vitest';
import type { StringState } from '#shared/contract/index.ts';
import { checkAskedFor, isDue, planThatHolds, reminderKey } from '../../../src-renderer/stores/due.ts';

const minute = 60_000;
const touchedAt = new Date(2026, 10, 25, 20, 8).getTime();
const string = (course: number, verdict: StringState['verdict'], checkInMinutes: number | null): StringState => ({
  course,
  string: 0,
  verdict,
  holdsFromSeconds: null,
  nextCheckSeconds: checkInMinutes === null ? null : (touchedAt + checkInMinutes * minute) / 1000,
  driftCents: 0,
  insideTolerance: true,
  why: '',
  warning: null,
});
const asked = (...strings: StringState[]) => checkAskedFor({ stringSetId: 'wren-set', strings }, touchedAt);

describe('the check that is planned', () => {
  test('is the soonest of the strings that still move, with the courses that fall due together', () => {
    const check = asked(string(0, 'holding', 1), string(1, 'settling', 4), string(2, 'settling', 4.5), string(3, 'slipping', 9));
    expect(check).toEqual({ stringSetId: 'wren-set', touchedAt, courses: [1, 2], at: touchedAt + 4 * minute });
  });

  test('is none where all hold, where nothing would be learnt, or where a string was not heard', () => {
    expect(asked(string(0, 'holding', 4), string(1, 'settling', null), string(2, 'unheard', 0))).toBeNull();
  });

  test('stays where it is while time goes by, though each later judgement looks ahead from its own moment', () => {
    const first = asked(string(0, 'settling', 4));
    const later = asked(string(0, 'settling', 7));
    expect(planThatHolds(first!, later)).toBe(first);
    expect(planThatHolds(undefined, later)).toBe(later);
  });

  test('is planned anew once a string was heard or turned, and dropped once all hold', () => {
    const first = asked(string(0, 'settling', 4));
    const heard = checkAskedFor({ stringSetId: 'wren-set', strings: [string(0, 'settling', 12)] }, touchedAt + 4 * minute);
    expect(planThatHolds(first!, heard)).toBe(heard);
    expect(planThatHolds(first!, null)).toBeNull();
  });
});

describe('the reminder', () => {
  const check = asked(string(0, 'settling', 4))!;
  const at = (minutes: number) => touchedAt + minutes * minute;

  test('comes when the check is due, and not before', () => {
    expect(isDue(check, null, at(3.9))).toBe(false);
    expect(isDue(check, null, at(4))).toBe(true);
  });

  test('put off, it comes again when that is over', () => {
    expect(isDue(check, at(15), at(14.9))).toBe(false);
    expect(isDue(check, at(15), at(15))).toBe(true);
  });

  test('of a check that nobody made for two hours lapses', () => {
    expect(isDue(check, null, at(4 + 119))).toBe(true);
    expect(isDue(check, null, at(4 + 120))).toBe(false);
  });

  test('is the same one until it is put off or the strings are touched, so it is given once', () => {
    expect(reminderKey(check, null)).toBe(reminderKey({ ...check }, at(2)));
    expect(reminderKey(check, at(15))).not.toBe(reminderKey(check, null));
    expect(reminderKey({ ...check, touchedAt: at(5) }, null)).not.toBe(reminderKey(check, null));
  });
});
