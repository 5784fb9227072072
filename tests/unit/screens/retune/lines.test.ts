import { expect, test } from 'vitest';
import { homePitches } from '#shared/instruments/index.ts';
import { wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';
import { linesOf } from '../../../../src-renderer/screens/retune/lines.ts';
import { instrumentOf } from '../wren.ts';

test('the strings of a double course pull together: all of them count', () => {
  const overview = instrumentOf('mandolin', 'Bramble');
  const pitches = homePitches(overview.stringSet);
  const home = { name: 'Home', pitches, hertz: wantedHertz(pitches, null, hertz(440)), sameShapes: true };
  for (const { now, together } of linesOf(overview, home, home, home.hertz, 3)) {
    expect(together.now).toBeCloseTo(2 * (now.newtons ?? Number.NaN), 6);
    expect(together.after).toBe(together.now);
  }
});
