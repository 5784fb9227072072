import { describe, expect, test } from 'vitest';
import type { Overview } from '../../../../src-shared/contract/index.ts';
import { homePitches, presetById, stringSetFromPreset } from '../../../../src-shared/instruments/index.ts';
import { type LogRows, stringHistory } from '../../../../src-shared/log/index.ts';
import { assess } from '../../../../src-shared/settling/index.ts';
import { duration, eventsOf } from '../../../../src-renderer/screens/settling/events.ts';
import { begunAt, isForeseen, type Row, rowsOf, wasEverHeard } from '../../../../src-renderer/screens/settling/rows.ts';
import { clock, evenly, now, row, stringRow } from './support.ts';

const set = stringSetFromPreset(presetById('ukulele-tenor-high-g') ?? failing(), {
  id: 'set',
  instrumentId: 'one',
  name: 'set',
  fittedAt: 0,
});
function failing(): never {
  throw new Error('there is no such preset');
}
const overview = { stringSet: set } as Overview;
const tuning = { name: 'Home', pitches: homePitches(set), hertz: [], sameShapes: true };

const reading = (course: number, at: number, deviationCents: number) => ({
  id: `${course} ${at}`,
  stringSetId: 'set',
  retuneId: 'retune',
  at: at * 1000,
  course,
  string: 0,
  hertz: 400,
  wantedHertz: 400,
  deviationCents,
  sigmaCents: 0.5,
  source: 'pluck' as const,
});

/** Course 2 (the third from the eye) was lowered at 20:04 and creeps back up; course 4 was left alone; the others were never heard. */
const log: LogRows = {
  retunes: [
    {
      id: 'retune',
      instrumentId: 'one',
      stringSetId: 'set',
      fromTuningId: null,
      toTuningId: null,
      startedAt: clock(20, 3) * 1000,
      finishedAt: clock(20, 5) * 1000,
      wantedHertz: [[400], [400], [400], [400]],
    },
  ],
  turns: [{ id: 'turn', retuneId: 'retune', at: clock(20, 4) * 1000, course: 2, string: 0, cents: -200 }],
  readings: [
    reading(0, clock(20, 3), 1),
    reading(0, clock(20, 6), 0.5),
    ...[5, 6, 8, 12, 20].map((minute, index) => reading(2, clock(20, minute), [-9, -8, -6.8, -5.4, -4][index] ?? 0)),
  ],
};

function rows(): readonly Row[] {
  const assessments = assess({
    courses: set.courses.map((_, course) => ({
      string: { material: 'fluorocarbon', wound: false, daysSinceChange: 100 },
      ...stringHistory(log, course, 0),
    })),
    nowSeconds: now,
    policy: { toleranceCents: 3, horizonSeconds: 1800 },
  });
  return rowsOf(
    overview,
    tuning,
    log,
    assessments.map((assessment, course) => ({ course, string: 0, assessment })),
  );
}

const judged = (string: number, given: Parameters<typeof stringRow>[0]) => ({ course: 0, string, assessment: stringRow(given).assessment });

describe('the rows of an instrument', () => {
  test('run from the player’s eye down, with the pitches of the tuning', () => {
    expect(rows().map(({ number }) => number)).toEqual([4, 3, 2, 1]);
    expect(rows()[0]?.pitches).toEqual(homePitches(set)[0]);
    expect(rows().map(({ verdict }) => verdict)).toEqual(['holding', 'unheard', 'settling', 'unheard']);
  });

  test('count a string’s readings from its own peg move, else from the last move of any peg', () => {
    const [four, , two] = rows();
    expect(two?.strings[0]).toMatchObject({ movedAt: clock(20, 4), since: clock(20, 4) });
    expect(two?.strings[0].heard).toHaveLength(5);
    expect(four?.strings[0]).toMatchObject({ movedAt: null, since: clock(20, 4) });
    expect(four?.strings[0].heard.map(({ cents }) => cents)).toEqual([0.5]);
  });

  test('tell when other pegs were turned', () => {
    expect(rows().map(({ otherTurns }) => otherTurns)).toEqual([[clock(20, 4)], [clock(20, 4)], [], [clock(20, 4)]]);
  });

  test('let the worse string of a double course lead', () => {
    const [course] = rowsOf(overview, tuning, log, [judged(0, { verdict: 'holding' }), judged(1, { verdict: 'slipping' })]);
    expect(course?.verdict).toBe('slipping');
    expect(course?.strings.map(({ string }) => string)).toEqual([1, 0]);
  });

  test('begin with the first thing that happened, and know whether anything was ever heard', () => {
    expect(begunAt(rows())).toBe(clock(20, 3));
    expect(wasEverHeard(rows())).toBe(true);
    const silent = row(1, 'A4', stringRow({}, { history: { moves: [], readings: [], past: [] } }));
    expect(wasEverHeard([silent])).toBe(false);
    expect(begunAt([silent])).toBeNull();
  });

  test('do not take a band of many cents for a forecast', () => {
    expect(isForeseen(stringRow({ forecast: evenly(0, 0, 25) }).assessment, now)).toBe(true);
    expect(isForeseen(stringRow({ forecast: evenly(0, 0, 26) }).assessment, now)).toBe(false);
  });
});

describe('the table of a string', () => {
  test('holds every peg move, slip and reading in order, then what is expected now and in half an hour', () => {
    const slips = [{ atSeconds: clock(20, 16), cents: -8 }];
    const events = eventsOf(stringRow({ slips, forecast: evenly(-2, -0.1) }), now, { counting: [], wrong: [] });
    expect(events.map(({ what }) => what)).toEqual([
      'peg turned, loosened by 200 c',
      'heard',
      'slipped down 8 c before this',
      'heard',
      'expected now',
      'expected in half an hour',
    ]);
    expect(events.at(-1)?.cents?.cents).toBeCloseTo(-5, 6);
    expect(events[1]?.cents?.low).toBeCloseTo(-5 - 1.645 * 0.4, 6);
  });

  test('says how long ago the peg move was as shortly as it can', () => {
    expect([40, 720, 3 * 3600, 9 * 86_400].map(duration)).toEqual(['40 s', '12 min', '3 h', '9 days']);
  });
});
