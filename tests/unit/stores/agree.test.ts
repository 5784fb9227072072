import { describe, expect, test } from 'vitest';
import type { Output } from '#shared/contract/index.ts';
import type { Reading, Retune, Turn } from '#shared/log/index.ts';
import { judgeStrings } from '#shared/strung/index.ts';
import { retuneBy } from '../../../src-renderer/stores/later.ts';
import { lessonsOf, settleSeconds } from '../../../src-renderer/stores/lessons.ts';
import { horizonSeconds } from '../../../src-renderer/stores/settling.ts';
import { instrumentOf } from '../screens/wren.ts';

// What the plan of a retune promises, and what Settling says once its pegs are turned, come from one log and have to be one number.

const day = 86_400_000;
const minute = 60_000;
const now = new Date(2026, 10, 25, 19, 30).getTime();
const fittedAt = now - 200 * day;
const plain = instrumentOf('ukulele-tenor-high-g', 'Wren');
const wren = { ...plain, stringSet: { ...plain.stringSet, fittedAt } };
const home = [391.995, 261.626, 329.628, 440];
const down = (hertz: number, cents: number) => hertz * 2 ** (-cents / 1200);
const policy = { toleranceCents: 3, horizonSeconds };

/** One string, course 1, taken down a tone and home again on so many evenings; it creeps by its own 3.2 c a decade of time for each semitone. */
function yearOf(evenings: number): Output<'log.read'> {
  const retunes: Retune[] = [];
  const turns: Turn[] = [];
  const readings: Reading[] = [];
  for (let evening = evenings; evening > 0; evening--) {
    for (const [index, cents] of [-200, 200].entries()) {
      const startedAt = now - evening * 9 * day + index * 70 * minute;
      const id = `${evening} ${index}`;
      const wanted = index === 0 ? down(440, 200) : 440;
      retunes.push({
        id,
        instrumentId: 'wren',
        stringSetId: 'wren-set',
        fromTuningId: null,
        toTuningId: null,
        startedAt,
        finishedAt: startedAt + minute,
        wantedHertz: [...home.slice(0, 3).map((hertz) => [hertz]), [wanted]],
      });
      turns.push({ id: `${id} turn`, retuneId: id, at: startedAt, course: 3, string: 0, cents });
      for (const after of [0.5, 1, 3, 8, 20, 45]) {
        const off = -0.032 * cents * Math.log10(1 + after);
        readings.push({
          id: `${id} ${after}`,
          stringSetId: 'wren-set',
          retuneId: id,
          at: startedAt + after * minute,
          course: 3,
          string: 0,
          hertz: wanted * 2 ** (off / 1200),
          wantedHertz: wanted,
          deviationCents: off,
          sigmaCents: 0.3,
          source: 'pluck',
        });
      }
    }
  }
  return { retunes, turns, readings, wrong: [], changes: [] };
}

/** The same log with the retune begun and its peg just turned. */
function turned(log: Output<'log.read'>, cents: number): Output<'log.read'> {
  const [first] = yearOf(1).retunes;
  const retune = { ...first!, id: 'tonight', startedAt: now, wantedHertz: home.map((hertz) => [hertz]) };
  const turn: Turn = { id: 'turn tonight', retuneId: 'tonight', at: now, course: 3, string: 0, cents };
  return { ...log, retunes: [...log.retunes, retune], turns: [...log.turns, turn] };
}

const promised = (log: Output<'log.read'>, cents: number, on = wren) =>
  settleSeconds(lessonsOf(on, log, now)[3]!, { atSeconds: now / 1000, cents }, policy);

function judged(log: Output<'log.read'>, cents: number, on = wren): number | null {
  const { stringSet } = on;
  const after = turned(log, cents);
  const wanted = home.map((hertz) => [hertz]);
  const all = judgeStrings({ stringSet, log: after, changes: after.changes, wanted, now, toleranceCents: 3 });
  const holds = all[3]?.assessment.holdsFromSeconds ?? null;
  return holds === null ? null : holds - now / 1000;
}

describe('Retune’s plan and Settling', () => {
  test.each([
    ['never heard before', 0, -200],
    ['with three evenings behind it, loosened', 3, -200],
    ['with six evenings behind it, tightened', 6, 200],
    ['with five evenings behind it, a semitone', 5, -100],
  ])('agree when a string will hold: %s', (_what, evenings, cents) => {
    const log = yearOf(evenings);
    const [plan, settling] = [promised(log, cents), judged(log, cents)];
    expect(plan).not.toBeNull();
    expect(settling).not.toBeNull();
    expect(Math.abs(settling! / plan! - 1)).toBeLessThan(0.05);
  });

  test('agree on a string that was changed by itself two days ago, which is new again', () => {
    const change = {
      id: 'change',
      stringSetId: 'wren-set',
      at: now - 2 * day,
      course: 3,
      string: 0,
      material: 'fluorocarbon' as const,
      wound: false,
      diameterMillimetres: null,
      words: '',
    };
    const log = { ...yearOf(0), changes: [change] };
    const plan = promised(log, -200);
    expect(Math.abs(judged(log, -200)! / plan! - 1)).toBeLessThan(0.05);
    expect(plan! / promised(yearOf(0), -200)!).toBeGreaterThan(2);
  });
});

describe('run backwards', () => {
  const way = (log: Output<'log.read'>) => ({
    lessons: lessonsOf(wren, log, now),
    present: home.map((hertz) => [hertz]),
    wanted: home.map((hertz, course) => [course === 3 ? down(hertz, 200) : hertz]),
    policy,
    nowSeconds: now / 1000,
  });

  test('a retune begun at the latest moment settles just in time', () => {
    const log = yearOf(4);
    const takes = promised(log, -200)!;
    const holdAt = now / 1000 + 2 * takes;
    const by = retuneBy(way(log), holdAt);
    expect(by.kind).toBe('by');
    const left = by.kind === 'by' ? holdAt - by.atSeconds : Number.NaN;
    expect(Math.abs(left - takes)).toBeLessThan(Math.max(90, takes * 0.05));
  });

  test('where it is too late, it says from when it would hold', () => {
    const log = yearOf(4);
    const takes = promised(log, -200)!;
    const by = retuneBy(way(log), now / 1000 + takes / 3);
    expect(by).toEqual({ kind: 'too-late', holdsFromSeconds: now / 1000 + takes });
  });

  test('nothing is to be turned where every string is within tolerance', () => {
    const there = way(yearOf(1));
    expect(retuneBy({ ...there, wanted: there.present }, now / 1000 + 60)).toEqual({ kind: 'nothing-to-turn' });
  });
});
