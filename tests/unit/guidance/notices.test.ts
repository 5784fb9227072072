import { describe, expect, test } from 'vitest';
import { advise, type CoachState, type Effect, type Setup, start, step } from '#shared/guidance/index.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import { hertzOf } from '../../support/pitches.ts';

const string = { material: 'fluorocarbon', wound: false, daysSinceChange: null, linearDensityKilogramsPerMetre: null } as const;
const instrument = { scaleLengthMillimetres: 432, courses: Array.from({ length: 4 }, () => ({ strings: [string] })) };
const home = hertzOf('G4 C4 E4 A4');
const lantern = hertzOf('G4 Bb3 Eb4 Bb4');
const begin = (change: Partial<Setup> = {}): CoachState =>
  start({ instrument, present: home, wanted: lantern, toleranceCents: 3, atSeconds: 0, ...change });
const off = (hertz: number | undefined, cents: number): number => (hertz ?? Number.NaN) * 2 ** (cents / 1200);

function sound(state: CoachState, course: number, hertz: number, seconds: number, from: number) {
  const effects: Effect[] = [];
  let now = state;
  for (let at = from; at < from + seconds; at += 0.05) {
    const next = step(now, { kind: 'reading', atSeconds: at, course, string: 0, hertz, sigmaCents: 0.2, steady: true });
    effects.push(...next.effects);
    now = next.state;
  }
  return { state: now, effects };
}

const said = (effects: readonly Effect[]): readonly string[] =>
  effects.flatMap((effect) => (effect.kind === 'announce' ? [effect.sentence] : []));

describe('what the player may not see', () => {
  test('turning away from the aim by more than 15 cents is said once', () => {
    const found = sound(begin(), 1, home[1]?.[0] ?? 0, 0.2, 0).state;
    const little = sound(found, 1, off(home[1]?.[0], 12), 0.3, 1);
    expect(said(little.effects)).toEqual([]);
    const away = sound(little.state, 1, off(home[1]?.[0], 25), 0.5, 2);
    expect(said(away.effects)).toEqual(['The other way.']);
    expect(advise(away.state)).toMatchObject({ action: 'loosen', why: 'The other way.' });
  });

  test('a course that stays where it is over several plucks is asked after its peg', () => {
    let state = begin();
    const sentences: string[] = [];
    for (const at of [0, 4, 8, 12]) {
      const next = sound(state, 1, home[1]?.[0] ?? 0, 1, at);
      sentences.push(...said(next.effects));
      state = next.state;
    }
    expect(sentences).toEqual(['Course 3 isn’t changing: is that its peg?']);
  });

  test('when another course has moved instead, that is said at once, and that course is visited again', () => {
    const found = sound(begin(), 1, home[1]?.[0] ?? 0, 0.2, 0).state;
    const wrong = sound(found, 0, off(home[0]?.[0], -40), 0.3, 2);
    expect(said(wrong.effects)).toEqual(['Course 3 isn’t changing: is that its peg?']);
    expect(wrong.state.strings[0]?.landedAtSeconds).toBeNull();
  });
});

describe('the wrong peg', () => {
  test('a course that was not asked for and is run up stops the guidance, and is the one to see to', () => {
    const found = sound(begin(), 1, home[1]?.[0] ?? 0, 0.2, 0).state;
    const wrong = sound(found, 3, off(home[3]?.[0], 420), 0.3, 2);
    expect(wrong.effects).toContainEqual({ kind: 'cue', cue: 'stop' });
    expect(advise(wrong.state)).toMatchObject({ course: 3, action: 'stop' });
    expect(advise(wrong.state).centsToGo).toBeLessThan(0);
    const loosened = sound(wrong.state, 3, wrong.state.strings[3]?.aimHertz ?? 0, 1.5, 4).state;
    expect(advise(loosened)).toMatchObject({ course: 1, action: 'pluck' });
  });
});

describe('pegs with play', () => {
  test('a lowered string is taken below its aim first, and lands only when it has come up', () => {
    const state = sound(begin({ undershootCents: 20 }), 1, home[1]?.[0] ?? 0, 0.2, 0).state;
    const { aimHertz } = state.strings[1] ?? { aimHertz: 0 };
    expect(advise(state).aimHertz).toBeCloseTo(off(aimHertz, -20), 6);
    const tooSoon = sound(state, 1, aimHertz, 2, 1);
    expect(tooSoon.effects).toEqual([]);
    const below = sound(tooSoon.state, 1, off(aimHertz, -21), 0.3, 4).state;
    expect(advise(below)).toMatchObject({ action: 'tighten', aimHertz });
    expect(sound(below, 1, aimHertz, 1.2, 5).effects).toContainEqual({ kind: 'cue', cue: 'landed' });
  });
});

describe('a new string', () => {
  test('is visited next, and creeps as a new one', () => {
    const lead = { untilSeconds: 1800, capCents: 15 };
    const state = begin({ lead });
    const restrung = step(state, { kind: 'restring', atSeconds: 1, course: 2, string: 0 }).state;
    expect(advise(restrung)).toMatchObject({ course: 2, action: 'pluck' });
    const creep = (one: CoachState) => Math.abs(one.strings[2]?.drift.meanCents[10] ?? Number.NaN);
    expect(creep(restrung)).toBeGreaterThan(3 * creep(state));
  });
});

describe('frames as they come', () => {
  test('a stray frame holds nothing up, and noise within the tolerance does not either', () => {
    const random = seededRandom(5);
    let state = sound(begin(), 1, home[1]?.[0] ?? 0, 0.2, 0).state;
    const aim = state.strings[1]?.aimHertz;
    let landedAt = Number.NaN;
    for (let frame = 0; frame < 60 && Number.isNaN(landedAt); frame += 1) {
      const cents = frame % 9 === 4 ? 30 : random.normal(0.8);
      const reading = {
        kind: 'reading',
        atSeconds: 2 + frame * 0.05,
        course: 1,
        string: 0,
        hertz: off(aim, cents),
        sigmaCents: 0.8,
        steady: true,
      } as const;
      const next = step(state, reading);
      if (next.effects.some(({ kind }) => kind === 'record')) landedAt = reading.atSeconds;
      state = next.state;
    }
    expect(landedAt).toBeLessThan(4);
  });
});
