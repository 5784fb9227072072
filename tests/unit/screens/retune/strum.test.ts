import { describe, expect, test } from 'vitest';
import { step } from '#shared/guidance/index.ts';
import { announce, sceneOf } from '../../../../src-renderer/screens/retune/announce.ts';
import { headWords } from '../../../../src-renderer/screens/retune/head-words.ts';
import { outcomeOf, pluckReason, strumAsked, touchButton, touchWords } from '../../../../src-renderer/screens/retune/strum-words.ts';
import type { Retuning } from '../../../../src-renderer/stores/retuning.ts';
import { after, sounding, wrenLed } from './led.ts';

/** Wren with its three courses turned, and all strings in one strum so many cents from wanted; null = not heard. */
function strummed(cents: readonly (number | null)[], sigmaCents = 0.2): Retuning {
  const begun = wrenLed();
  let led: Retuning = { ...begun, coach: { ...begun.coach, setup: { ...begun.coach.setup, strumCheck: true } } };
  for (let at = 0; led.coach.phase === 'turning' && at < 60; at += 4) led = sounding(led, led.advice.course ?? 0, 0, at, 3);
  expect(led.advice.action).toBe('strum');
  const courses = led.to.hertz.map((strings, course) =>
    strings.map((hertz) => {
      const off = cents[course] ?? null;
      return off === null ? { refusal: 'unclear' } : { hertz: hertz * 2 ** (off / 1200), sigmaCents };
    }),
  );
  return after(led, { kind: 'strum', atSeconds: 72_000, courses });
}

describe('what a strum told', () => {
  test('names only the course to touch, and folds the others into words', () => {
    const outcome = outcomeOf(strummed([0.3, 0.4, -5, 1.1]));
    expect(outcome?.touches).toEqual([{ course: 2, name: 'course 2', word: 'tighten', hue: 'below', amount: '5.0 c' }]);
    expect(touchWords(outcome?.touches ?? [])).toBe('Only course 2: tighten 5.0 c.');
    expect([outcome?.rest, outcome?.near]).toEqual(['4, 3 and 1: leave them.', 'None is more than 1.1 c from its aim.']);
    expect([outcome?.where, outcome?.sure]).toEqual(['5.0 c below', 'its aim, sure to within 0.4\u00a0c']);
    expect(outcome?.heard).toMatch(/^All 4 courses heard in one strum at \d\d:\d\d\.$/u);
  });

  test('asks for a course that was not heard by a pluck, by name', () => {
    const now = strummed([null, 0.4, 0.2, 0.3]);
    const outcome = outcomeOf(now);
    expect(touchWords(outcome?.touches ?? [])).toBe('Only course 4: pluck it.');
    expect(outcome?.heard).toMatch(/Not heard: 4\.$/u);
    expect(pluckReason(now, 0, 0)).toBe('the strum did not tell it');
    expect(headWords(now, 0)).toMatchObject({ command: 'pluck', cents: 'once', amount: 'the strum did not tell it' });
  });

  test('asks for courses that it could not tell apart in one breath', () => {
    const now = strummed([9, 0.1, -9, 8]);
    const { strummed: told } = now.coach;
    const alike = { kind: 'pluck', hertz: null, cents: null, sigmaCents: null, reason: 'alike' } as const;
    const verdicts = (told?.verdicts ?? []).map((one) => ([0, 3].includes(one.course) ? { ...one, ...alike } : one));
    const outcome = outcomeOf({ ...now, coach: { ...now.coach, strummed: told === null ? null : { ...told, verdicts } } });
    expect(touchWords(outcome?.touches ?? [])).toContain('ourses 4 and 1: pluck them');
    expect(outcome?.touches.map(touchButton).toSorted()).toEqual(['Pluck courses 4 and 1', 'Tighten course 2']);
    expect(outcome?.heard).toMatch(/Can’t tell 4 and 1 apart\.$/u);
  });

  test('is said once, in place of the next instruction', () => {
    const now = strummed([0.3, 0.4, -5, 1.1]);
    const asked = { ...sceneOf(now, null), place: null, outcome: null, instruction: 'Strum all strings once, open, and let them ring.' };
    const said = announce({ scene: asked, way: null, atMilliseconds: 0 }, sceneOf(now, null), 5000);
    expect(said.sentence).toBe('Only course 2: tighten 5.0 c. 4, 3 and 1: leave them.');
    expect(announce(said.said, sceneOf(now, null), 10_000).sentence).toBeNull();
  });

  test('is past as soon as the course is plucked', () => {
    const now = strummed([0.3, 0.4, -5, 1.1]);
    const reading = { kind: 'reading', atSeconds: 72_002, course: 2, string: 0, hertz: 310.3, sigmaCents: 0.3, steady: true } as const;
    expect(outcomeOf(after(now, reading))).toBeNull();
  });

  test('leaves nothing to say where every course is good: the retune is done', () => {
    const now = strummed([0.3, 0.4, 0.2, 0.1]);
    expect([now.coach.phase, outcomeOf(now)]).toEqual(['done', null]);
  });

  test('is asked for again where what sounded was no strum', () => {
    const asked = (strum: Retuning['strum']) => strumAsked({ strum }).how;
    expect(asked({ fromSeconds: 0, beganAtSeconds: null, misses: 0 })).toBe('Once, open, and let them ring.');
    expect(asked({ fromSeconds: 0, beganAtSeconds: null, misses: 1 })).toContain('Once more');
  });

  test('can be left as it is: every course that is still queued is skipped', () => {
    let { coach } = strummed([9, 9, -5, 8]);
    for (const _ of coach.queue) coach = step(coach, { kind: 'skip', atSeconds: 72_010 }).state;
    expect(coach.phase).toBe('done');
  });
});
