import { describe, expect, test } from 'vitest';
import { clockAxis, sinceAxis } from '../../../../src-renderer/screens/settling/axes.ts';
import { coursePicture } from '../../../../src-renderer/screens/settling/course-picture.ts';
import { readingPoints } from '../../../../src-renderer/screens/settling/reading-points.ts';
import { clock, evenly, minutes, now, row, stringRow } from './support.ts';

const evening = clockAxis(clock(20, 3), now);
const points = (one: ReturnType<typeof row>, axis = evening) =>
  readingPoints(one, coursePicture(one, axis, { now, toleranceCents: 3 }), now);

describe('what the cursor finds on a course’s board', () => {
  test('is every reading with its time and its distance, then where the string is expected', () => {
    const found = points(row(3, 'Bb3', stringRow({ forecast: evenly(1, 0.1, 2) })));
    expect(found.map(({ words }) => words.replaceAll('\u00A0', ' '))).toEqual([
      '20:06: 5.0 c below',
      '20:16: on pitch',
      'expected at 20:54: 4.0 c above, from 2.0 to 6.0 c',
    ]);
    const along = found.map((point) => point.along);
    expect(along).toEqual([...along].sort((a, b) => a - b));
    expect(found[0]?.down).toBeGreaterThan(found[1]?.down ?? 1);
  });

  test('says of a double course which string it was', () => {
    const found = points(row(3, 'E5 E4', stringRow(), stringRow({}, { string: 1 })));
    expect(found.map(({ words }) => words.split(':').slice(0, 2).join(':')).slice(0, 2)).toEqual([
      '20:06, first string',
      '20:06, second string',
    ]);
  });

  test('leaves out what the log axis cannot show: readings from before the peg move', () => {
    const history = { moves: [], readings: [{ atSeconds: clock(20, 2), cents: 0, sigmaCents: 0.3 }], past: [] };
    const found = points(row(3, 'Bb3', stringRow({}, { history, heard: history.readings })), sinceAxis(minutes(20)));
    expect(found.map(({ words }) => words)).toEqual([expect.stringContaining('expected')]);
  });
});
