import { describe, expect, test } from 'vitest';
import { assess, type Move, type Reading } from '#shared/settling/index.ts';

// Direction facts, common practice: they need no readings but one, as the signs are physics.

const string = { material: 'nylon', wound: false, daysSinceChange: 60 } as const;
const policy = { toleranceCents: 3, horizonSeconds: 1800 };
const hour = 3600;
const readAt = (atSeconds: number, cents: number): Reading => ({ atSeconds, cents, sigmaCents: 0.5 });

function judged(
  moves: readonly Move[],
  readings: readonly Reading[],
  nowSeconds: number,
  past: readonly { moves: readonly Move[]; readings: readonly Reading[] }[] = [],
) {
  const [assessment] = assess({ courses: [{ string, moves, readings, past }], nowSeconds, policy });
  return assessment!;
}

describe('which way a string creeps', () => {
  test('a raised string goes flat', () => {
    expect(judged([{ atSeconds: 0, cents: 200 }], [readAt(30, 0)], 30).driftCents).toBeLessThan(-2);
  });

  test('a lowered string creeps sharp', () => {
    expect(judged([{ atSeconds: 0, cents: -200 }], [readAt(30, 0)], 30).driftCents).toBeGreaterThan(2);
  });

  test('a string left alone for a month holds', () => {
    const month = 30 * 86_400;
    const left = judged(
      [{ atSeconds: 0, cents: 200 }],
      [readAt(month, 0.2), readAt(month + 300, 0), readAt(month + 600, 0.1)],
      month + 600,
    );
    expect(left.verdict).toBe('holding');
    expect(Math.abs(left.driftCents)).toBeLessThan(0.5);
  });

  test('raised for an evening and then brought half way down, it goes sharp first and flat later', () => {
    const past = [{ moves: [{ atSeconds: 0, cents: 300 }], readings: [] }];
    const back = judged([{ atSeconds: hour, cents: -200 }], [readAt(hour + 30, 0)], hour + 30, past);
    const soon = back.forecast(hour + 600).cents;
    const turning = back.forecast(5 * hour).cents;
    const later = back.forecast(48 * hour).cents;
    expect(soon).toBeGreaterThan(0.5);
    expect(later).toBeLessThan(turning);
  });

  test('taken out and back home within the hour, it is restless: it moves although it is where it was', () => {
    const past = [{ moves: [{ atSeconds: 0, cents: -200 }], readings: [] }];
    const home = judged([{ atSeconds: hour, cents: 200 }], [readAt(hour + 60, 0)], hour + 60, past);
    expect(home.verdict).toBe('settling');
    expect(home.driftCents).toBeLessThan(-1.5);
  });

  test('back and forth the same evening leaves it more restless than the same turn from rest', () => {
    const turns = [0, 1, 2, 3].map((index) => ({ atSeconds: index * 0.4 * hour, cents: index % 2 === 0 ? 200 : -200 }));
    const last = turns.at(-1)!.atSeconds;
    const past = turns.slice(0, -1).map((turn) => ({ moves: [turn], readings: [] }));
    const restless = judged([turns.at(-1)!], [readAt(last + 60, 0)], last + 60, past);
    const left = judged([{ atSeconds: last - 30 * 86_400, cents: -200 }], [readAt(last, 0), readAt(last + 60, 0)], last + 60);
    expect(restless.verdict).toBe('settling');
    expect(left.verdict).toBe('holding');
    expect(Math.abs(restless.driftCents)).toBeGreaterThan(10 * Math.abs(left.driftCents));
  });

  test('steel hardly creeps', () => {
    const [steel] = assess({
      courses: [
        {
          string: { material: 'steel', wound: false, daysSinceChange: 60 },
          moves: [{ atSeconds: 0, cents: 200 }],
          readings: [readAt(60, 0)],
          past: [],
        },
      ],
      nowSeconds: 60,
      policy,
    });
    expect(Math.abs(steel!.driftCents)).toBeLessThan(1.5);
    expect(steel!.verdict).toBe('holding');
  });
});
