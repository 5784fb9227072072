import { describe, expect, test } from 'vitest';
import { advise, type CoachEvent, type CoachState, type Effect, listenForStrum, type Setup, start, step } from '#shared/guidance/index.ts';
import { hertzOf } from '../../support/pitches.ts';

const string = { material: 'fluorocarbon', wound: false, daysSinceChange: null, linearDensityKilogramsPerMetre: null } as const;
const instrument = { scaleLengthMillimetres: 432, courses: Array.from({ length: 4 }, () => ({ strings: [string] })) };
const home = hertzOf('G4 C4 E4 A4');
const off = (hertz: number | undefined, cents: number): number => (hertz ?? Number.NaN) * 2 ** (cents / 1200);
const atHome = (change: Partial<Setup> = {}): CoachState =>
  start({ instrument, present: home, wanted: home, toleranceCents: 3, atSeconds: 0, strumCheck: true, ...change });

/** One strum, each course so many cents from wanted; a word is a refusal. */
function strum(state: CoachState, courses: readonly (number | string)[], atSeconds = 1, sigmaCents = 0.3) {
  const { wanted } = state.setup;
  const event: CoachEvent = {
    kind: 'strum',
    atSeconds,
    courses: courses.map((one, course) => [
      typeof one === 'string' ? { refusal: one } : { hertz: off(wanted[course]?.[0], one), sigmaCents },
    ]),
  };
  return step(state, event);
}

function sound(state: CoachState, course: number, hertz: number, seconds: number, from: number): CoachState {
  let now = state;
  for (let at = from; at < from + seconds; at += 0.05)
    now = step(now, { kind: 'reading', atSeconds: at, course, string: 0, hertz, sigmaCents: 0.2, steady: true }).state;
  return now;
}
const records = (effects: readonly Effect[]) => effects.filter(({ kind }) => kind === 'record');

describe('every course from one strum', () => {
  test('is asked for once the pegs are left alone, and ends the retune where all is well', () => {
    const asked = atHome();
    expect(advise(asked)).toMatchObject({ course: null, action: 'strum' });
    expect(listenForStrum(asked)).toEqual(home);
    const { state, effects, advice } = strum(asked, [0.4, -1, 0, 2]);
    expect(advice.action).toBe('done');
    expect(state.strummed?.sentence).toBe('Every course is within tolerance.');
    expect(records(effects)).toHaveLength(4);
  });

  test('names only the courses to touch', () => {
    const one = strum(atHome(), [0.4, -1, -5.2, 2]).state;
    expect(one.strummed?.sentence).toBe('Only course 2: tighten 5 c. 4, 3 and 1: leave them.');
    expect(advise(one)).toMatchObject({ course: 2, action: 'pluck' });
    const two = strum(atHome(), [7, -1, -5.2, 2]).state;
    expect(two.strummed?.sentence).toBe('Course 4: loosen 7 c; course 2: tighten 5 c. 3 and 1: leave them.');
  });

  test('after a course was touched it is strummed once more; what is heard alike is not', () => {
    const touched = strum(atHome(), [0.4, -1, -8, 2]).state;
    const turned = sound(sound(touched, 2, off(home[2]?.[0], -8), 0.3, 2), 2, home[2]?.[0] ?? 0, 1.5, 3);
    expect(advise(turned).action).toBe('strum');
    expect(strum(turned, [0, 0, 0, 0], 6).advice.action).toBe('done');
  });

  test('what it can’t tell is named, and plucked', () => {
    const unison = hertzOf('G4 C4 E4 G4');
    const { state } = strum(atHome({ present: unison, wanted: unison }), ['two sounds', 0, 0, 'two sounds']);
    expect(state.strummed?.sentence).toBe('Can’t tell 4 and 1 apart: pluck course 4, then course 1. 3 and 2: leave them.');
    expect(state.queue.map((place) => state.strings[place]?.course)).toEqual([0, 3]);
    const unsure = strum(atHome(), [2.8, 0, 0, 'unclear']).state;
    expect(unsure.strummed?.sentence).toBe('Not sure of course 4: pluck it. Course 1 wasn’t heard: pluck it. 3 and 2: leave them.');
  });

  test('a course that the strum did not tell is plucked by name where another peg was turned since it was heard', () => {
    const wanted = hertzOf('G4 Bb3 Eb4 A4');
    const [first, second] = [home, wanted].map((row) => [row[1]?.[0] ?? 0, row[2]?.[0] ?? 0]) as [number[], number[]];
    const lowered = sound(sound(atHome({ wanted }), 1, first[0]!, 0.3, 0), 1, second[0]!, 1.5, 1);
    const both = sound(sound(lowered, 2, first[1]!, 0.3, 4), 2, second[1]!, 1.5, 5);
    expect(advise(both).action).toBe('strum');
    const early = strum(both, [0, 'unclear', 0, 0], 9);
    expect(early.advice).toMatchObject({ course: 1, action: 'pluck' });
    expect(early.state.strummed?.sentence).toBe('Course 3 wasn’t heard: pluck it. 4, 2 and 1: leave them.');
    const untouched = strum(both, [0, 'unclear', 'unclear', 0], 9).state;
    expect(untouched.strummed?.sentence).toBe('Course 3 wasn’t heard: pluck it. 4, 2 and 1: leave them.');
    expect(untouched.queue).toEqual([1]);
  });

  test('a vague reading near the edge is weighed with the pluck before it: the course is plucked, not left', () => {
    const wanted = hertzOf('G4 Bb3 E4 A4');
    const edge = off(wanted[1]?.[0], 2.6);
    const lowered = sound(sound(atHome({ wanted }), 1, home[1]?.[0] ?? 0, 0.3, 0), 1, edge, 1.5, 1);
    expect(advise(lowered).action).toBe('strum');
    const vague = strum(lowered, [0, 1, 0, 0], 4, 1);
    expect(vague.state.strummed?.verdicts?.[1]).toMatchObject({ kind: 'pluck', reason: 'unsure' });
    expect(vague.advice).toMatchObject({ course: 1, action: 'pluck' });
    expect(strum(lowered, [0, 1, 0, 0], 4, 0.02).advice).toMatchObject({ course: 1, action: 'pluck' });
    expect(strum(lowered, [0, 2.5, 0, 0], 4, 0.05).advice.action).toBe('done');
  });

  test('of two courses tuned alike neither is named by a pitch that could be the other’s', () => {
    const unison = hertzOf('G4 C4 E4 G4');
    const { state, effects } = strum(atHome({ present: unison, wanted: unison }), [-6, 0, 0, 0]);
    expect(state.strummed?.verdicts?.map(({ kind }) => kind)).toEqual(['pluck', 'leave', 'leave', 'pluck']);
    expect(records(effects)).toHaveLength(2);
  });

  test('a strum that can’t be read falls back to plucks', () => {
    const { state, advice } = strum(atHome(), ['silence', 'silence', 'silence', 'silence']);
    expect(advice).toMatchObject({ action: 'pluck' });
    expect(state.queue).toHaveLength(4);
    expect(state.strummed?.sentence).toContain('pluck the courses one by one');
  });

  test('frames of a strum land nothing, and it may be skipped', () => {
    expect(sound(atHome(), 2, home[2]?.[0] ?? 0, 2, 0)).toMatchObject({ phase: 'strumming' });
    expect(step(atHome(), { kind: 'skip', atSeconds: 1 }).advice.action).toBe('done');
    expect(advise(step(strum(atHome(), [0, 0, 0, 0]).state, { kind: 'restring', atSeconds: 9, course: 1, string: 0 }).state).course).toBe(
      1,
    );
  });

  test('is asked for again at the player’s wish, and given up for plucks', () => {
    const asked = strum(atHome(), [0.4, -1, -5.2, 2]).state;
    const heard = sound(asked, 2, off(home[2]?.[0], -5.2), 0.3, 2);
    const again = step(heard, { kind: 'strum-again', atSeconds: 3 });
    expect(again.advice).toMatchObject({ action: 'strum', course: null });
    expect(again.state.strings[2]).toMatchObject({ visit: null, sounding: null });
    expect(strum(again.state, [0, 0, 0, 0], 5).advice.action).toBe('done');
    const plucks = step(again.state, { kind: 'pluck-instead', atSeconds: 5 });
    expect(plucks.advice).toMatchObject({ action: 'pluck', course: 2 });
    expect(step(plucks.state, { kind: 'pluck-instead', atSeconds: 6 }).state.queue).toEqual(plucks.state.queue);
    const without = step(again.state, { kind: 'strum-check', on: false, atSeconds: 5 });
    expect(without.advice).toMatchObject({ action: 'pluck', course: 2 });
    const done = strum(atHome(), [0, 0, 0, 0]).state;
    expect(step(done, { kind: 'strum-again', atSeconds: 9 }).advice.action).toBe('done');
  });

  test('is off unless it is asked for', () => {
    expect(advise(atHome({ strumCheck: false })).action).toBe('pluck');
  });
});
