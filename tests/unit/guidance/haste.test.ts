import { describe, expect, test } from 'vitest';
import { advise, type CoachState, type Effect, hear, start } from '#shared/guidance/index.ts';
import { hertzOf } from '../../support/pitches.ts';

const string = { material: 'nylon', wound: false, daysSinceChange: null, linearDensityKilogramsPerMetre: null } as const;
const instrument = { scaleLengthMillimetres: 350, courses: Array.from({ length: 4 }, () => ({ strings: [string] })) };
const sharp = (hertz: number | undefined, cents: number): number => (hertz ?? Number.NaN) * 2 ** (cents / 1200);

function pluck(state: CoachState, hertz: number, atSeconds: number, seconds: number) {
  const effects: Effect[] = [];
  let now = state;
  for (let since = 0.05; since < seconds; since += 0.02) {
    const next = hear(now, { atSeconds: atSeconds + since, hertz, sigmaCents: 0.1, steady: true, sincePluckSeconds: since });
    effects.push(...next.effects);
    now = next.state;
  }
  return { state: now, records: effects.filter(({ kind }) => kind === 'record'), said: effects.filter(({ kind }) => kind === 'announce') };
}

/** The first course is turned to its pitch and lands; then the next one is asked for. */
function landed(present: string, wanted: string) {
  const begun = start({ instrument, present: hertzOf(present), wanted: hertzOf(wanted), toleranceCents: 3, atSeconds: 0 });
  const [first = 0, next = 0] = begun.queue;
  const found = pluck(begun, hertzOf(present)[first]?.[0] ?? 0, 1, 0.5).state;
  const { state } = pluck(found, sharp(begun.strings[first]?.aimHertz, -1), 3, 0.9);
  const { landedAtSeconds, presentHertz } = state.strings[first] ?? {};
  expect(advise(state)).toMatchObject({ course: next, action: 'pluck' });
  return { state, next, atSeconds: landedAtSeconds ?? Number.NaN, hertz: presentHertz ?? Number.NaN };
}

describe('a pluck right after a course has landed is still of that course: the hand was already on its way', () => {
  test('it does not land a course of the same pitch that nobody has plucked', () => {
    const { state, next, atSeconds, hertz } = landed('A4 A4 B4 D5', 'G4 G4 B4 D5');
    const after = pluck(state, hertz, atSeconds + 0.1, 1);
    expect([after.records, after.said]).toEqual([[], []]);
    expect(advise(after.state)).toMatchObject({ course: next, action: 'pluck' });
    expect(after.state.strings[next]).toMatchObject({ visit: null, landedAtSeconds: null });
  });

  test('nor is the player told that it sounds like the course before', () => {
    const { state, next, atSeconds, hertz } = landed('A4 E4 B4 D5', 'G4 D4 B4 D5');
    const after = pluck(state, hertz, atSeconds + 0.1, 1);
    expect(after.said).toEqual([]);
    expect(advise(after.state)).toMatchObject({ course: next, action: 'pluck' });
  });

  test('after that it is the course asked for', () => {
    const { state, next, atSeconds, hertz } = landed('A4 A4 B4 D5', 'G4 G4 B4 D5');
    const early = pluck(state, hertz, atSeconds + 0.1, 1).state;
    const { state: after } = pluck(early, early.strings[next]?.presentHertz ?? 0, atSeconds + 2, 0.5);
    expect(advise(after)).toMatchObject({ course: next, action: 'loosen' });
    const late = pluck(state, hertz, atSeconds + 0.5, 0.9);
    expect(late.state.doubt?.sound.course).toBe(next);
  });
});
