import { expect, test } from 'vitest';
import { homePitches } from '#shared/instruments/index.ts';
import { wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';
import { asItStands } from '../../../src-renderer/stores/plan.ts';
import { instrumentOf } from '../screens/wren.ts';

const pitches = homePitches(instrumentOf('ukulele-tenor-high-g', 'Wren').stringSet);
const home = { name: 'Home', pitches, hertz: wantedHertz(pitches, null, hertz(440)), sameShapes: true };

test('a course that an unfinished retune has left elsewhere goes from where it is', () => {
  const from = asItStands({ tuning: home, present: [[392], [261.6], [329.6], [392.4]] }, 440);
  expect(from.pitches).toEqual([['G4'], ['C4'], ['E4'], ['G4']]);
  expect(from.hertz[3]?.[0]).toBeCloseTo(392, 0);
});

test('a course that has only drifted is still in its tuning', () => {
  expect(asItStands({ tuning: home, present: [[392], [261.6], [326], [440]] }, 440)).toBe(home);
});

test('an instrument that stands as a whole elsewhere has another reference pitch, not other pitches', () => {
  const low = home.hertz.map((strings) => strings.map((at) => at * 2 ** (-1 / 12)));
  expect(asItStands({ tuning: home, present: low }, 440)).toBe(home);
});
