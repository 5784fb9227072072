import { describe, expect, test } from 'vitest';
import { columnsOf, columnsOfString, type CoursePicture, type DrawnString } from '../../../src-renderer/charts/picture.ts';

const point = (seconds: number, cents: number) => ({ seconds, cents, low: cents - 1, high: cents + 1 });

const picture = (...strings: readonly DrawnString[]): CoursePicture => ({
  axis: { kind: 'linear', from: 0, until: 100 },
  lowestCents: -14,
  highestCents: 14,
  toleranceCents: 3,
  stringWidth: 2,
  strings,
  frets: [],
  ownTurns: [],
  otherTurns: [],
  slips: [],
  now: 50,
  ahead: null,
});

const column = (columns: ReturnType<typeof columnsOf>, name: (typeof columnsOfString)[number], string = 0) =>
  columns[1 + string * columnsOfString.length + columnsOfString.indexOf(name)];

describe('the columns of a picture', () => {
  const settling: DrawnString = {
    readings: [
      { seconds: 10, cents: -5 },
      { seconds: 30, cents: -2 },
      { seconds: 40, cents: 3.1 },
    ],
    curve: [[point(10, -4), point(50, -1), point(100, 1)]],
    fittedUntil: 50,
  };

  test('run over every moment once, from the nut to the saddle', () => {
    expect(columnsOf(picture(settling))[0]).toEqual([0.1, 0.3, 0.4, 0.5, 1]);
  });

  test('part the curve into fit and forecast, which meet at now', () => {
    const columns = columnsOf(picture(settling));
    expect(column(columns, 'fit')).toEqual([-4, undefined, undefined, -1, undefined]);
    expect(column(columns, 'forecast')).toEqual([undefined, undefined, undefined, -1, 1]);
    expect(column(columns, 'low')).toEqual([-5, undefined, undefined, -2, 0]);
    expect(column(columns, 'high')).toEqual([-3, undefined, undefined, 0, 2]);
  });

  test('part the readings by tolerance: hue only outside it', () => {
    const columns = columnsOf(picture(settling));
    expect(column(columns, 'below')).toEqual([-5, undefined, undefined, undefined, undefined]);
    expect(column(columns, 'within')).toEqual([undefined, -2, undefined, undefined, undefined]);
    expect(column(columns, 'above')).toEqual([undefined, undefined, 3.1, undefined, undefined]);
  });

  test('break the line at a slip', () => {
    const slipping = {
      readings: [],
      curve: [
        [point(10, 0), point(20, 1)],
        [point(22, -8), point(60, -8)],
      ],
      fittedUntil: 50,
    };
    const columns = columnsOf(picture(slipping));
    expect(columns[0]).toEqual([0.1, 0.2, 0.21, 0.22, 0.6]);
    expect(column(columns, 'fit')).toEqual([0, 1, null, -8, undefined]);
  });

  test('draw no fit through a string that was not heard', () => {
    const columns = columnsOf(picture({ readings: [], curve: [[point(0, -3), point(100, -3)]], fittedUntil: null }));
    expect(column(columns, 'fit')).toEqual([undefined, undefined]);
    expect(column(columns, 'forecast')).toEqual([-3, -3]);
  });

  test('keep the strings of a double course apart', () => {
    const other = { ...settling, readings: [{ seconds: 30, cents: 1 }] };
    const columns = columnsOf(picture(settling, other));
    expect(columns).toHaveLength(1 + 2 * columnsOfString.length);
    expect(column(columns, 'within', 1)).toEqual([undefined, 1, undefined, undefined, undefined]);
  });
});
