import { describe, expect, test } from 'vitest';
import { start } from '#shared/guidance/index.ts';
import { presetById, stringSetFromPreset } from '#shared/instruments/index.ts';
import { type LogRows, stringHistory } from '#shared/log/index.ts';
import { coachInstrument, daysSinceChanged, isDueAgain, judgeStrings } from '#shared/strung/index.ts';
import { evening, instrument, reading, remarks, retune, stringSet, turn } from '../../support/wren.ts';

const minute = 60_000;
const day = 86_400_000;
const [change] = remarks.stringChanges;
const wanted = retune.wantedHertz;

const heard = (id: string, at: number, cents: number, referenceHertz = 440) => {
  const own = (wanted[1]![0]! * referenceHertz) / 440;
  return { ...reading, id, at, wantedHertz: own, hertz: own * 2 ** (cents / 1200), deviationCents: cents };
};

/** Course 3 of Wren, taken down at A4 = 440 Hz and heard, then heard on from A4 = 442 Hz: the string stood still all the while. */
const acrossReferences: LogRows = {
  retunes: [retune],
  turns: [{ ...turn, cents: -100 }],
  readings: [
    ...[5, 10, 20, 40].map((after) => heard(`${after}`, evening + after * minute, 0)),
    ...[60, 70, 80].map((after) => heard(`${after}`, evening + after * minute, 1200 * Math.log2(440 / 442), 442)),
  ],
};

describe('a string across a change of the reference pitch', () => {
  test('is told of in cents from one pitch: what is wanted tonight', () => {
    const tonight = (wanted[1]![0]! * 442) / 440;
    const cents = stringHistory(acrossReferences, 1, 0, tonight).readings.map((one) => one.cents);
    for (const one of cents) expect(one).toBeCloseTo(-7.85, 2);
    const written = stringHistory(acrossReferences, 1, 0).readings.map((one) => Math.round(one.cents));
    expect(written).toEqual([0, 0, 0, 0, -8, -8, -8]);
  });

  test('an earlier retune is told of from what was wanted then', () => {
    const later = {
      ...retune,
      id: 'later',
      startedAt: evening + 50 * minute,
      wantedHertz: wanted.map((course) => course.map((hertz) => hertz * 2)),
    };
    const { past, readings } = stringHistory({ ...acrossReferences, retunes: [retune, later] }, 1, 0, later.wantedHertz[1]![0]);
    expect(past[0]?.readings.map((one) => Math.round(one.cents))).toEqual([0, 0, 0, 0]);
    expect(readings.map((one) => Math.round(one.cents))).toEqual([-1200, -1200, -1200]);
  });

  test('has not slipped', () => {
    const tonight = wanted.map((course) => course.map((hertz) => (hertz * 442) / 440));
    const question = { stringSet, changes: [], now: evening + 90 * minute, toleranceCents: 3 };
    const [, judged] = judgeStrings({ ...question, log: acrossReferences, wanted: tonight });
    expect(judged).toMatchObject({ course: 1, string: 0, assessment: { slips: [], insideTolerance: false } });
  });
});

describe('a string whose peg was turned and that was not heard since', () => {
  const again = { ...retune, id: 'again', startedAt: evening + 3 * 60 * minute, finishedAt: null };
  const before = [5, 20, 60].map((after) => heard(`${after}`, evening + after * minute, 0));
  const judgedAt = again.startedAt + 5 * minute;
  const forecast = (centsTurned: number) => {
    const turnedAgain = { ...turn, id: 'more', retuneId: 'again', at: again.startedAt + minute, cents: centsTurned };
    const log = { retunes: [retune, again], turns: [{ ...turn, cents: -100 }, turnedAgain], readings: before };
    const [, judged] = judgeStrings({ stringSet, log, changes: [], wanted, now: judgedAt, toleranceCents: 3 });
    return { verdict: judged?.assessment.verdict, ...judged?.assessment.forecast(judgedAt / 1000) };
  };

  test('is unheard, and expected where it was before and as far as it was turned, not at its pitch', () => {
    for (const turned of [-60, 45]) {
      const { verdict, cents, low, high } = forecast(turned);
      expect(verdict).toBe('unheard');
      expect(Math.abs((cents ?? 0) - turned)).toBeLessThan(4);
      expect(low).toBeLessThan(turned);
      expect(high).toBeGreaterThan(turned);
    }
  });
});

describe('the age of a string', () => {
  test('counts from when it was changed by itself, the others’ from when the set was fitted', () => {
    const now = evening;
    expect(daysSinceChanged(stringSet, [change!], { course: 0, string: 0 }, now)).toBeCloseTo((now - change!.at) / day, 9);
    expect(daysSinceChanged(stringSet, [change!], { course: 1, string: 0 }, now)).toBe(1);
    expect(daysSinceChanged(stringSet, [change!], { course: 0, string: 0 }, change!.at - 1)).toBeCloseTo(1, 0);
  });
});

describe('verdicts', () => {
  test('are worth making anew when a fiftieth of the time since the strings were touched has gone by, never within ten seconds', () => {
    const touchedAt = evening;
    const due = (judgedAfter: number, nowAfter: number) =>
      isDueAgain({ touchedAt, judgedAt: touchedAt + judgedAfter, now: touchedAt + judgedAfter + nowAfter });
    expect([due(0, 9999), due(0, 10_000)]).toEqual([false, true]);
    expect([due(day, 28 * minute), due(day, 29 * minute)]).toEqual([false, true]);
    // Left alone for ten days: a tenth.
    expect([due(10 * day, day - minute), due(10 * day, day)]).toEqual([false, true]);
  });
});

describe('an instrument for a coach', () => {
  test('has the length of each course, the age and the linear density of each string', () => {
    const preset = presetById('banjo-five-string')!;
    const set = stringSetFromPreset(preset, { id: 's', instrumentId: 'i', name: 'First set', fittedAt: 0 });
    const asked = coachInstrument(preset, set, (course) => (course === 0 ? null : course));
    expect(asked.courses.map(({ scaleLengthMillimetres }) => scaleLengthMillimetres)).toEqual(
      set.courses.map((course) => course.scaleLengthMillimetres ?? preset.scaleLengthMillimetres),
    );
    expect(asked.courses.map(({ strings }) => strings[0]?.daysSinceChange)).toEqual(
      set.courses.map((_, course) => (course === 0 ? null : course)),
    );
    for (const { strings } of asked.courses) expect(strings[0]?.linearDensityKilogramsPerMetre ?? 1).toBeGreaterThan(0);
  });

  test('is what a coach begins with', () => {
    const state = start({
      instrument: coachInstrument(instrument, stringSet, () => 118),
      present: wanted,
      wanted,
      toleranceCents: 3,
      atSeconds: 0,
      lead: null,
      learned: { retunes: [] },
    });
    expect(state.strings).toHaveLength(4);
  });
});
