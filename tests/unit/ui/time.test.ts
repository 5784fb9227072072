import { expect, test } from 'vitest';
import { when } from '../../../src-renderer/ui/time.ts';

const moment = (day: number, hours: number, minutes: number): number => new Date(2026, 10, day, hours, minutes).getTime();

test('on the same day, and in a night that goes on past midnight, the time of day is said', () => {
  expect(when(moment(25, 9, 5), moment(25, 23, 20))).toBe('09:05');
  expect(when(moment(26, 0, 10), moment(25, 23, 20))).toBe('00:10');
  expect(when(moment(25, 22, 4), moment(26, 1, 0))).toBe('22:04');
});

test('of another day the day is said', () => {
  expect(when(moment(25, 9, 5), moment(26, 1, 0))).toBe('25 November');
  expect(when(moment(16, 22, 0), moment(25, 23, 20))).toBe('16 November');
});
