import { describe, expect, test } from 'vitest';
import { assess, type StringLog } from '#shared/settling/index.ts';
import { creeping, judge, logWith, nylon, policy, readAlong } from './log.ts';

const wait = (moments: readonly number[]) => {
  const judged = judge(logWith(readAlong(creeping(-10), 0.5, moments)));
  return judged.nextCheckSeconds! - moments.at(-1)!;
};

describe('the verdict', () => {
  test('a string turned and not read since is unheard, and to be read now', () => {
    const judged = judge(logWith([]), 60);
    expect(judged.verdict).toBe('unheard');
    expect(judged.nextCheckSeconds).toBe(60);
    expect(judged.insideTolerance).toBeNull();
    expect(judged.why).toMatch(/^not heard since it was turned; /u);
    expect(judge(logWith([], []), 60).why).toMatch(/^not heard yet; /u);
  });

  test('a string that the retune leaves alone and nobody hears is where it was left, however large the clock is', () => {
    const [turned, alone] = [{ ...logWith([]), moves: [{ atSeconds: 1.8e9, cents: 200 }] }, logWith([], [])];
    const [, judged] = assess({ courses: [turned, alone], nowSeconds: 1.8e9 + 600, policy });
    expect(judged!.verdict).toBe('unheard');
    expect(judged!.forecast(1.8e9 + 600).cents).toBeCloseTo(0, 6);
    const width = (ahead: number) => judged!.forecast(1.8e9 + ahead).high - judged!.forecast(1.8e9 + ahead).low;
    expect(width(600)).toBeLessThan(22);
    expect(width(86_400)).toBeGreaterThan(width(600) + 2);
  });

  test('readings from before the last turn do not count as hearing it', () => {
    const log = logWith(readAlong(creeping(-5)), [
      { atSeconds: 0, cents: 200 },
      { atSeconds: 700, cents: 20 },
    ]);
    expect(judge(log, 710).verdict).toBe('unheard');
  });

  test('ten minutes after a whole tone up a string is settling, and says when it will hold', () => {
    const judged = judge(logWith(readAlong(creeping(-10), 0.4)));
    expect(judged.verdict).toBe('settling');
    // closed form: 29 minutes after the retune
    expect(judged.holdsFromSeconds! / 60).toBeGreaterThan(29 / 2);
    expect(judged.holdsFromSeconds! / 60).toBeLessThan(29 * 2);
    expect(judged.why).toMatch(
      /^still creeping flat, about \d c in the next 30 minutes; now \d+ c flat, steady within ±3 c in about \d+ minutes$/,
    );
  });

  test('a string that hardly moves and is in tune is holding', () => {
    const judged = judge(logWith(readAlong(creeping(-0.5), 0.3)));
    expect(judged.verdict).toBe('holding');
    expect(judged.holdsFromSeconds).toBe(600);
    expect(judged.insideTolerance).toBe(true);
  });

  test('a string that hardly moves but is out of tune is not holding: it asks for a touch-up', () => {
    const judged = judge(logWith(readAlong((seconds) => 7 + creeping(-0.5)(seconds), 0.3)));
    expect(judged.verdict).toBe('settling');
    expect(judged.why).toMatch(/^nearly still, but [67] c sharp: a touch-up now would hold/);
  });

  test('the next check comes later as the string calms down', () => {
    const early = wait([20, 40, 60]);
    const late = wait([20, 40, 60, 120, 240, 480]);
    expect(early).toBeGreaterThan(0);
    expect(late).toBeGreaterThan(early);
  });

  test('every string is answered for, in the order asked', () => {
    const answers = assess({ courses: [logWith([]), logWith(readAlong(creeping(-5)))], nowSeconds: 600, policy });
    expect(answers.map(({ verdict }) => verdict)).toEqual(['unheard', 'settling']);
  });

  test('a tolerance or horizon that is not above 0 is refused', () => {
    expect(() => assess({ courses: [], nowSeconds: 0, policy: { ...policy, toleranceCents: 0 } })).toThrow(
      'toleranceCents must be above 0; got 0',
    );
    expect(() => assess({ courses: [], nowSeconds: 0, policy: { ...policy, horizonSeconds: -1 } })).toThrow(
      'horizonSeconds must be above 0; got -1',
    );
  });
});

const warming = (seconds: number) => seconds / 200;

describe('what the neighbours explain', () => {
  const unmoved: StringLog = {
    string: nylon,
    moves: [],
    readings: readAlong(warming, 0.3),
    past: [{ moves: [{ atSeconds: -86_400, cents: 100 }], readings: [] }],
  };
  const moved: StringLog = { ...unmoved, moves: [{ atSeconds: 0, cents: -200 }] };
  const log = logWith(readAlong((seconds) => creeping(-5)(seconds) + warming(seconds), 0.3));

  test('an unmoved neighbour that goes sharp shows that the room is warming', () => {
    const alone = judge(log).forecast(2400).cents;
    expect(judge(log, 600, [unmoved, unmoved]).forecast(2400).cents).toBeGreaterThan(alone + 0.5);
  });

  test('a neighbour that was lowered this evening shows nothing: its own creep must not be taken for weather', () => {
    const steady = { ...moved, moves: [{ atSeconds: -10, cents: -200 }] };
    expect(judge(log, 600, [steady]).forecast(2400).cents).toBeCloseTo(judge(log).forecast(2400).cents, 6);
  });
});
