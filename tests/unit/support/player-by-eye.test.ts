import { expect, test } from 'vitest';
import { orderIn } from '../../support/player-by-eye.ts';

test('a player by eye takes the order and its cents from the words of the screen', () => {
  expect(orderIn('C4\n→\nB♭3\n3 loosen\n105 c\nabout a semitone\n2\nE4')).toEqual({ course: '3', word: 'loosen', cents: 105 });
  expect(orderIn('2 tighten\nabout 2½ c\n')).toEqual({ course: '2', word: 'tighten', cents: 2.5 });
  expect(orderIn('1 there\non its aim')).toEqual({ course: '1', word: 'there', cents: null });
  expect(orderIn('Only course 2: tighten 5 c\n4, 3 and 1: leave them.')).toEqual({ course: '2', word: 'tighten', cents: 5 });
  expect(orderIn('Course 4: pluck it,\ncourse 3: loosen 6.6 c')).toEqual({ course: '4', word: 'pluck', cents: null });
  expect(orderIn('3\nC4\nstays')).toBeNull();
});
