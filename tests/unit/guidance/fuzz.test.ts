import { describe, expect, test } from 'vitest';
import { fuzzRun } from '../../bench/retune/fuzz.ts';

// The long run is tests/bench/fuzz.ts.
describe('whatever comes', () => {
  test('there is a next step that leads to the end, and no aim lies past the limit for breaking', () => {
    const runs = Array.from({ length: 24 }, (_, index) => fuzzRun(31 + 7919 * index));
    expect(runs.reduce((sum, { events }) => sum + events, 0)).toBeGreaterThan(2000);
    expect(runs.flatMap(({ faults }) => faults)).toEqual([]);
  });

  test.each([
    [15843, 'of two strings of a course only one was ever heard while any may be plucked'],
    [308846, 'a string left half-way was thought back where it came from when another peg was turned'],
    [416368, 'a caution went on telling to loosen while paused, when nothing is heard'],
    [277942, 'room left for other pegs took an aim past the limit for breaking'],
    [2847501, 'a course was taken for another and run up without a caution, heard and not heard from frame to frame'],
    [5812547, 'the other string of its course still waiting, a string was believed that had had its turn'],
    [67443151, 'a course asked for by name was not believed to be that when it was plucked, because another was under way'],
    [963172, 'a string asked for by name was taken for the other one of its course'],
  ])('seed %i: %s', (seed) => {
    expect(fuzzRun(seed).faults).toEqual([]);
  });
});
