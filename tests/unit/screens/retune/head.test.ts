import { expect, test } from 'vitest';
import { cents } from '#shared/units/index.ts';
import { headWords } from '../../../../src-renderer/screens/retune/head-words.ts';
import { tailWords } from '../../../../src-renderer/screens/retune/tail-words.ts';
import type { Live } from '../../../../src-renderer/stores/retuning.ts';
import { after, sounding, wrenLed } from './led.ts';

const heard = (course: number): Live => ({
  hertz: 329.6,
  sigmaCents: 0.3,
  atMilliseconds: 0,
  match: { kind: 'match', course, string: 0, deviationCents: cents(100), certainty: 0.98, others: [] },
});

test('whoever turns peg 3 while course 2 sounds is told so, and the word to obey stays', () => {
  const turning = sounding(wrenLed(), 1, 80, 0, 0.2);
  expect(headWords({ ...turning, live: heard(1) }, 1)).toMatchObject({ number: '3', command: 'loosen', isNews: false });
  expect(headWords({ ...turning, live: heard(2) }, 1)).toMatchObject({
    command: 'loosen',
    cents: 'sounds like 2',
    amount: 'pluck course 3 by itself',
    isNews: true,
  });
  expect(headWords({ ...wrenLed(), live: heard(2) }, 1)).toMatchObject({ command: 'pluck', amount: 'that sounds like course 2' });
});

test('nothing is said of another course while it is paused', () => {
  const paused = after(wrenLed(), { kind: 'pause', atSeconds: 1 });
  expect(headWords({ ...paused, live: heard(2) }, 1)).toMatchObject({ command: 'paused', isNews: false });
});

test('a course that pulls what it should has its pull named once', () => {
  expect(tailWords(wrenLed(), 0)).toMatchObject({ pull: expect.stringMatching(/^\d+\.\d N$/u), wanted: '' });
  expect(tailWords(wrenLed(), 1).wanted).toMatch(/^wanted \d+\.\d N$/u);
});

test('a string that the player said is new is taken for one, and the screen says so', () => {
  const renewed = wrenLed({ renewed: [{ course: 1, string: 0 }] });
  expect(tailWords(renewed, 1)).toMatchObject({ fresh: 'Taken for a new string.', pull: '' });
  expect(headWords(renewed, 1)).toMatchObject({ command: 'pluck', cents: 'once', amount: 'it may be anywhere' });
  expect(tailWords(renewed, 2).fresh).toBe('');
  expect(tailWords(sounding(renewed, 1, 80, 0, 0.2), 1).pull).toMatch(/ N$/u);
});
