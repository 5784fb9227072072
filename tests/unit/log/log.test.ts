import { describe, expect, test } from 'vitest';
import { lastHeard, type LogRows, presentHertz, readingRow, stringHistory, turnedSinceHeard, turnRow } from '#shared/log/index.ts';

const retune = (id: string, startedAt: number) => ({
  id,
  instrumentId: 'wren',
  stringSetId: 'set',
  fromTuningId: null,
  toTuningId: null,
  startedAt,
  finishedAt: null,
  wantedHertz: [[440]],
});
const reading = (id: string, at: number, hertz: number, course = 0) =>
  readingRow(
    { course, string: 0, hertz, sigmaCents: 0.3 },
    { id, at, stringSetId: 'set', retuneId: null, wantedHertz: 440, source: 'pluck' },
  );

const log: LogRows = {
  retunes: [retune('first', 10_000), retune('second', 100_000)],
  turns: [
    turnRow({ course: 0, string: 0, cents: -100 }, { id: 't1', at: 11_000, retuneId: 'first' }),
    turnRow({ course: 0, string: 0, cents: 100 }, { id: 't2', at: 101_000, retuneId: 'second' }),
  ],
  readings: [
    reading('r0', 5000, 440),
    reading('r1', 12_000, 439),
    reading('r2', 60_000, 439.5),
    reading('other', 61_000, 262, 1),
    reading('r3', 102_000, 441),
  ],
};

describe('the history of one string', () => {
  test('is cut at every retune; the latest stretch stands alone, earlier ones are its past', () => {
    const history = stringHistory(log, 0, 0);
    expect(history.moves).toEqual([{ atSeconds: 101, cents: 100 }]);
    expect(history.readings.map(({ atSeconds }) => atSeconds)).toEqual([102]);
    expect(history.past.map(({ readings }) => readings.map(({ atSeconds }) => atSeconds))).toEqual([[5], [12, 60]]);
    expect(history.past[1]?.moves).toEqual([{ atSeconds: 11, cents: -100 }]);
  });

  test('readings are cents from what was wanted then, positive = sharp', () => {
    expect(stringHistory(log, 0, 0).readings[0]?.cents).toBeCloseTo(1200 * Math.log2(441 / 440), 9);
  });

  test('of a string that was never touched it is empty', () => {
    expect(stringHistory(log, 3, 0)).toEqual({ moves: [], readings: [], past: [] });
  });
});

describe('where the strings are', () => {
  test('as last heard, else as the tuning has them', () => {
    expect(presentHertz(log.readings, [[440], [330], [200]])).toEqual([[441], [262], [200]]);
    expect(lastHeard(log.readings, 2, 0)).toBeNull();
  });

  test('a string turned since it was heard is where the turn took it; one heard after its turn, in the same moment too, is where it was heard', () => {
    const turn = (id: string, at: number, cents: number, course = 0) =>
      turnRow({ course, string: 0, cents }, { id, at, retuneId: 'second' });
    const turned = turnedSinceHeard(
      [reading('r3', 102_000, 441), reading('other', 61_000, 262, 1)],
      [turn('a', 101_000, 100), turn('b', 102_000, 2), turn('c', 103_000, -60), turn('d', 104_000, -40), turn('e', 104_000, 50, 2)],
    );
    expect(turned).toEqual([{ course: 0, string: 0, cents: -100, at: 104_000 }]);
    const [[present], [other], [unheard]] = presentHertz(log.readings, [[440], [330], [200]], turned) as [[number], [number], [number]];
    expect(1200 * Math.log2(present / 441)).toBeCloseTo(-100, 9);
    expect([other, unheard]).toEqual([262, 200]);
  });
});
