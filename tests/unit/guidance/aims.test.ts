import { describe, expect, test } from 'vitest';
import { advise, type CoachState, learn, type Learned, type Setup, start, step } from '#shared/guidance/index.ts';
import { hertzOf } from '../../support/pitches.ts';

const string = { material: 'nylon', wound: false, daysSinceChange: 60, linearDensityKilogramsPerMetre: 0.0005 } as const;
const instrument = { scaleLengthMillimetres: 380, courses: Array.from({ length: 4 }, () => ({ strings: [string] })) };
const home = hertzOf('G4 C4 E4 A4');
const raised = hertzOf('A4 D4 F#4 B4');
const setup = (change: Partial<Setup> = {}): Setup => ({
  instrument,
  present: home,
  wanted: raised,
  toleranceCents: 3,
  atSeconds: 0,
  ...change,
});
const off = (hertz: number | undefined, cents: number): number => (hertz ?? Number.NaN) * 2 ** (cents / 1200);
const centsOff = (hertz: number | null, from: number | undefined): number => 1200 * Math.log2((hertz ?? Number.NaN) / (from ?? Number.NaN));
const leadFor = (minutes: number, capCents = 15) => ({ untilSeconds: minutes * 60, capCents });
const strings = (state: CoachState) => state.strings;

/** An evening in which one string was turned and the others were read before and after; each moved by so much. */
const evening = (turned: number, cents: number, shifts: readonly number[], atSeconds: number): Learned['retunes'][number] => ({
  startedAtSeconds: atSeconds,
  wanted: home,
  turns: [{ atSeconds: atSeconds + 30, course: turned, string: 0, cents }],
  readings: shifts.flatMap((shift, course) =>
    course === turned
      ? []
      : [
          { atSeconds: atSeconds + course, course, string: 0, hertz: off(home[course]?.[0], -shift), sigmaCents: 0.2 },
          { atSeconds: atSeconds + 40 + course, course, string: 0, hertz: home[course]?.[0] ?? 0, sigmaCents: 0.2 },
        ],
  ),
});

describe('what the moves still to come will do is left room for', () => {
  test('a string that three others are tightened after is left sharp, the last one not at all', () => {
    const state = start(setup());
    const room = state.queue.map((place) => strings(state)[place]?.couplingCents ?? Number.NaN);
    expect(room[0]).toBeGreaterThan(1);
    expect(room.toSorted((a, b) => b - a)).toEqual(room);
    expect(room.at(-1)).toBeCloseTo(0, 9);
  });

  test('the advice names both numbers and who pulls, and they add up to the aim', () => {
    const { aimHertz, couplingCents, leadCents, pulls, course } = advise(start(setup({ lead: leadFor(30) })));
    expect(centsOff(aimHertz, raised[course ?? 0]?.[0])).toBeCloseTo((leadCents ?? 0) + (couplingCents ?? 0), 6);
    expect(pulls).toHaveLength(3);
    expect(pulls.every(({ cents }) => cents < 0)).toBe(true);
    expect(pulls.reduce((sum, { cents }) => sum + cents, 0)).toBeCloseTo(-(couplingCents ?? 0), 6);
  });

  test('an instrument that gave way much in earlier evenings is left more room, a stiff one less', () => {
    // Strings of one gauge pull as the square of their pitch; a share of what one gains is lost by each of the others.
    const pull = (course: number, cents: number) => (off(home[course]?.[0], cents) / 100) ** 2;
    const shift = (share: number, turned: number, other: number, from: number, to: number): number =>
      600 * Math.log2(1 - (share * (pull(turned, to) - pull(turned, from))) / pull(other, to));
    const room = (share: number): number => {
      const retunes = home.map((_, turned) =>
        evening(
          turned,
          200,
          home.map((_course, other) => shift(share, turned, other, -200, 0)),
          (turned - 5) * 86_400,
        ),
      );
      return advise(start(setup({ learned: { retunes } }))).couplingCents ?? Number.NaN;
    };
    const first = start(setup()).queue[0] ?? Number.NaN;
    const truth = (share: number): number =>
      home.reduce((sum, _, turned) => (turned === first ? sum : sum - shift(share, turned, first, 0, 200)), 0);
    for (const share of [0.003, 0.03]) {
      expect(room(share)).toBeGreaterThan(0.8 * truth(share));
      expect(room(share)).toBeLessThan(1.2 * truth(share));
    }
  });

  test('what one pluck of another string shows is used within the same retune', () => {
    let state = start(setup({ wanted: hertzOf('A4 C4 E4 B4') }));
    const before = state.coupling.mean[1 * 4 + 0] ?? 0;
    const sound = (course: number, hertz: number, from: number) => {
      for (let at = from; at < from + 1.2; at += 0.05)
        state = step(state, { kind: 'reading', atSeconds: at, course, string: 0, hertz, sigmaCents: 0.2, steady: true }).state;
    };
    for (let at = 0; state.phase === 'turning'; at += 10) {
      const course = advise(state).course ?? 0;
      sound(course, state.strings[course]?.presentHertz ?? 0, at);
      sound(course, state.strings[course]?.aimHertz ?? 0, at + 4);
    }
    // Both tightened strings are in place; course 3 is now heard 40 cents flat, far more than is usual.
    while (advise(state).course !== 1) state = step(state, { kind: 'skip', atSeconds: 40 }).state;
    sound(1, off(home[1]?.[0], -40), 40);
    sound(1, state.strings[1]?.aimHertz ?? 0, 44);
    expect(state.coupling.mean[1 * 4 + 0]).toBeGreaterThan(1.4 * before);
  });
});

describe('lead', () => {
  test('is off without a time, and goes against what settling will do: sharp for a raised string, flat for a lowered one', () => {
    expect(strings(start(setup())).map(({ leadCents }) => leadCents)).toEqual([0, 0, 0, 0]);
    expect(strings(start(setup({ lead: leadFor(30) }))).every(({ leadCents }) => leadCents > 2)).toBe(true);
    const lowered = start(setup({ present: raised, wanted: home, lead: leadFor(30) }));
    expect(strings(lowered).every(({ leadCents }) => leadCents < -2)).toBe(true);
  });

  test('grows with the time to hold and with the move, and never beyond its cap', () => {
    const lead = (minutes: number, cap?: number) => strings(start(setup({ lead: leadFor(minutes, cap) })))[3]?.leadCents ?? Number.NaN;
    expect(lead(60)).toBeGreaterThan(lead(10));
    expect(lead(60, 4)).toBe(4);
    expect(lead(-1)).toBe(0);
  });

  test('a string that stays gets none, one turned an hour ago still some', () => {
    const stays = hertzOf('A4 C4 E4 A4');
    expect(strings(start(setup({ wanted: stays, lead: leadFor(30) })))[2]?.leadCents).toBeCloseTo(0, 9);
    const retunes = [evening(2, 200, [0, 0, 0, 0], -3600)];
    expect(strings(start(setup({ wanted: stays, lead: leadFor(30), learned: { retunes } })))[2]?.leadCents).toBeGreaterThan(0.2);
  });

  test('never takes a string past the share of breaking stress that needs a confirmation', () => {
    // Nylon at 650 mm, limit 256.5 Hz·m: 85 % of the breaking stress is reached at 363.8 Hz.
    const long = { ...instrument, scaleLengthMillimetres: 650 };
    const present = [[320], [200], [200], [200]];
    const wanted = [[363.5], [200], [200], [200]];
    const [first] = strings(start(setup({ instrument: long, present, wanted, lead: leadFor(60) })));
    expect(first?.leadCents).toBeGreaterThan(0);
    expect(first?.leadCents).toBeLessThan(2);
  });
});

describe('what was learned', () => {
  const learned = { retunes: [evening(0, 200, [0, 4, 4, 4], -86_400)] };

  test('serves every tuning of the string set, and makes the same coach as learning anew', () => {
    const lessons = learn(setup({ learned }));
    expect(start(setup({ learned }), lessons)).toEqual(start(setup({ learned })));
    const elsewhere = setup({ learned, wanted: hertzOf('G4 Bb3 Eb4 Bb4'), lead: leadFor(10) });
    expect(start(elsewhere, lessons)).toEqual(start(elsewhere));
  });

  test('of other strings is refused', () => {
    const lessons = learn(setup());
    expect(() => start(setup(), { ...lessons, drifts: lessons.drifts.slice(0, 3) })).toThrow(RangeError);
  });
});
