import { describe, expect, test } from 'vitest';
import {
  creepCents,
  drawLaw,
  drawReading,
  drawString,
  eventCents,
  lawKinds,
  logOf,
  progress,
  readVisit,
  seededRandom,
  trueCents,
  type Life,
  type Visit,
} from '#shared/simulation/strings/index.ts';

const nylon = { material: 'nylon', wound: false, daysSinceChange: 60 } as const;
const hour = 3600;

describe('a virtual string', () => {
  test('is the same string from the same seed, and another one from another', () => {
    expect(drawString(seededRandom(5), nylon)).toEqual(drawString(seededRandom(5), nylon));
    expect(drawString(seededRandom(5), nylon)).not.toEqual(drawString(seededRandom(6), nylon));
  });

  test.each(lawKinds.map((kind) => ({ kind })))('goes flat when raised and sharp when lowered, ever more slowly: $kind', ({ kind }) => {
    const string = drawString(seededRandom(8), nylon, kind);
    const at = (cents: number, seconds: number) => creepCents(string, [{ atSeconds: 0, cents }], seconds, null);
    expect(at(200, 600)).toBeLessThan(0);
    expect(at(-200, 600)).toBeGreaterThan(0);
    expect(at(200, hour + 600) - at(200, hour)).toBeGreaterThan(at(200, 600) - at(200, 0));
  });

  test('has gone 1.49 decades after half an hour, by any law', () => {
    for (const kind of lawKinds) expect(progress(drawLaw(seededRandom(2), kind), 1800)).toBeCloseTo(Math.log10(31), 9);
  });

  test('remembers every move: out and back within the hour it still moves', () => {
    const string = drawString(seededRandom(9), nylon);
    const moves = [
      { atSeconds: 0, cents: -200 },
      { atSeconds: hour, cents: 200 },
    ];
    const drift = creepCents(string, moves, hour + 1800, null) - creepCents(string, moves, hour + 60, null);
    expect(drift).toBeLessThan(-0.3);
  });

  test('creeps more while it is new', () => {
    const string = drawString(seededRandom(10), nylon);
    const at = (strung: number | null) => creepCents(string, [{ atSeconds: 0, cents: 100 }], 600, strung);
    expect(at(-hour) / at(null)).toBeCloseTo(string.youngFactor, 9);
  });
});

describe('what befalls a string', () => {
  test('a slip is there at once and stays', () => {
    const slip = { kind: 'slip', atSeconds: 60, cents: -8 } as const;
    expect([59, 60, 9999].map((at) => eventCents(slip, at))).toEqual([0, -8, -8]);
  });

  test('a bend comes back in part', () => {
    const bend = { kind: 'bend', atSeconds: 0, cents: -4, backShare: 0.75, backSeconds: 100 } as const;
    expect(eventCents(bend, 0)).toBe(-4);
    expect(eventCents(bend, 10_000)).toBeCloseTo(-1, 6);
  });

  test('a ramp and a slide are even, and end', () => {
    const ramp = { kind: 'ramp', fromSeconds: 0, untilSeconds: 100, cents: 5 } as const;
    expect([-1, 50, 200].map((at) => eventCents(ramp, at))).toEqual([0, 2.5, 5]);
    const slide = { kind: 'slide', fromSeconds: 0, untilSeconds: hour, centsPerHour: -60 } as const;
    expect([-1, hour / 2, 2 * hour].map((at) => eventCents(slide, at))).toEqual([0, -30, -60]);
  });
});

const spread = (trueOverClaimed: number) => {
  const random = seededRandom(4);
  const errors = Array.from({ length: 4000 }, () => drawReading(random, { sigmaCents: 1, trueOverClaimed, badShare: 0 }, 0, 10).cents - 10);
  return Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length);
};

describe('readings', () => {
  test('of honest sigma spread as they claim; with wrong sigma twice as far', () => {
    expect(spread(1)).toBeCloseTo(1, 1);
    expect(spread(2) / spread(1)).toBeCloseTo(2, 5);
  });

  test('are bad as often as asked', () => {
    const random = seededRandom(4);
    const bad = Array.from({ length: 4000 }, () =>
      drawReading(random, { sigmaCents: 0.2, trueOverClaimed: 1, badShare: 0.05 }, 0, 0),
    ).filter(({ cents }) => Math.abs(cents) > 4);
    expect(bad.length / 4000).toBeCloseTo(0.05, 1);
  });

  test('of a visit start where the player left the string', () => {
    const life: Life = {
      string: drawString(seededRandom(3), nylon),
      strungAtSeconds: null,
      moves: [{ atSeconds: 100, cents: 200 }],
      events: [],
    };
    const noise = { sigmaCents: 0.3, trueOverClaimed: 1, badShare: 0 };
    const visit: Visit = { moves: life.moves, startCents: 1, readAtSeconds: [101, 700], noise };
    expect(trueCents(life, visit, 100)).toBe(1);
    const log = readVisit(seededRandom(3), life, visit);
    expect(log.readings.map(({ atSeconds }) => atSeconds)).toEqual([101, 700]);
    expect(Math.abs(log.readings[0]!.cents - trueCents(life, visit, 101))).toBeLessThan(1.5);
    expect(logOf(life, [log, log], 700).past).toEqual([log]);
  });
});
