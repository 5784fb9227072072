import { describe, expect, test } from 'vitest';
import { advise, type CoachState, type Effect, hear, start, step } from '#shared/guidance/index.ts';
import { hertzOf } from '../../support/pitches.ts';

const string = { material: 'fluorocarbon', wound: false, daysSinceChange: null, linearDensityKilogramsPerMetre: null } as const;
const instrument = { scaleLengthMillimetres: 432, courses: Array.from({ length: 4 }, () => ({ strings: [string] })) };
const home = hertzOf('G4 C4 E4 A4');
const begin = (present: string, wanted: string): CoachState =>
  start({ instrument, present: hertzOf(present), wanted: hertzOf(wanted), toleranceCents: 3, atSeconds: 0 });
const off = (hertz: number | undefined, cents: number): number => (hertz ?? Number.NaN) * 2 ** (cents / 1200);

/** Plucks a string and lets it sound for a while. */
function pluck(state: CoachState, hertz: number, atSeconds: number, seconds = 1) {
  const effects: Effect[] = [];
  let now = state;
  for (let since = 0.05; since < seconds; since += 0.05) {
    const next = hear(now, { atSeconds: atSeconds + since, hertz, sigmaCents: 0.2, steady: true, sincePluckSeconds: since });
    effects.push(...next.effects);
    now = next.state;
  }
  return { state: now, effects, said: effects.flatMap((effect) => (effect.kind === 'announce' ? [effect.sentence] : [])) };
}

describe('whose sound is it?', () => {
  test('another string that stands on the asked one’s way is not believed to be the asked one; it is asked for by name', () => {
    const state = begin('G4 C4 E4 A4', 'G4 C4 A4 A4');
    expect(advise(state).course).toBe(2);
    const wrong = pluck(state, home[0]?.[0] ?? 0, 1);
    expect(wrong.said).toEqual(['That may be course 4: pluck course 2 by itself.']);
    expect(advise(wrong.state)).toMatchObject({ course: 2, action: 'pluck', centsToGo: null });
    expect(wrong.state.strings[2]?.visit).toBeNull();
    expect(advise(pluck(wrong.state, home[2]?.[0] ?? 0, 4).state)).toMatchObject({ course: 2, action: 'tighten' });
  });

  test('the same pitch plucked again is believed: the peg was turned in silence', () => {
    const state = begin('G4 C4 E4 A4', 'G4 C4 A4 A4');
    const twice = pluck(pluck(state, home[0]?.[0] ?? 0, 1).state, home[0]?.[0] ?? 0, 4).state;
    expect(advise(twice)).toMatchObject({ course: 2, action: 'tighten' });
    expect(advise(twice).centsToGo).toBeCloseTo(200, -1);
  });

  test('where the log is wrong about the asked one, and another is known to stand there, the second pluck is believed', () => {
    const state = begin('G4 C4 E4 A4', 'G4 D4 E4 A4');
    const once = pluck(state, home[2]?.[0] ?? 0, 1);
    expect(once.said).toEqual(['That sounds like course 2: pluck course 3.']);
    expect(advise(once.state)).toMatchObject({ course: 1, action: 'pluck' });
    expect(advise(pluck(once.state, home[1]?.[0] ?? 0, 4).state)).toMatchObject({ course: 1, action: 'tighten' });
    const twice = pluck(once.state, home[2]?.[0] ?? 0, 4).state;
    expect(advise(twice)).toMatchObject({ course: 1, action: 'loosen' });
    expect(advise(twice).centsToGo).toBeCloseTo(-200, -1);
  });

  test('but no string is tightened far by what may be another: the peg of the one asked for is brought up a little, and tells', () => {
    const once = pluck(begin('G4 C4 E4 A4', 'G4 C4 E4 B4'), home[1]?.[0] ?? 0, 1);
    expect(once.said).toEqual(['That sounds like course 3: pluck course 1.']);
    const twice = pluck(once.state, home[1]?.[0] ?? 0, 4);
    expect(twice.said).toEqual(['If that was course 1, bring it up a little and pluck it again: it sounds like course 3.']);
    expect(advise(pluck(twice.state, home[1]?.[0] ?? 0, 7).state)).toMatchObject({ course: 3, action: 'pluck', centsToGo: null });
    expect(advise(pluck(twice.state, home[3]?.[0] ?? 0, 7).state)).toMatchObject({ course: 3, action: 'tighten' });
    const brought = pluck(pluck(twice.state, off(home[1]?.[0], 60), 7).state, off(home[1]?.[0], 60), 10).state;
    expect(advise(brought)).toMatchObject({ course: 3, action: 'tighten' });
    expect(advise(brought).centsToGo).toBeCloseTo(1040, -1);
  });

  test('when another course is plucked while one is turned, that one is asked for before its peg goes on: it may have been turned since', () => {
    const found = pluck(begin('G4 C4 E4 A4', 'G4 Bb3 E4 A4'), home[1]?.[0] ?? 0, 1).state;
    expect(advise(found)).toMatchObject({ course: 1, action: 'loosen' });
    const other = pluck(found, home[3]?.[0] ?? 0, 4).state;
    expect(advise(other)).toMatchObject({ course: 1, action: 'pluck' });
    expect(advise(pluck(other, off(home[1]?.[0], -190), 7).state)).toMatchObject({ course: 1, action: 'loosen' });
  });

  test('a string that was turned all the way to where another stands is not lost: it is asked for by name, and believed', () => {
    const found = pluck(begin('G4 C4 E4 A4', 'G4 C4 E4 G#4'), home[3]?.[0] ?? 0, 1).state;
    const once = pluck(found, home[2]?.[0] ?? 0, 4);
    expect(advise(once.state)).toMatchObject({ course: 3, action: 'pluck' });
    const twice = pluck(once.state, home[2]?.[0] ?? 0, 7);
    expect(twice.said).toEqual(['That sounds like course 2: pluck course 1.']);
    const thrice = pluck(twice.state, home[2]?.[0] ?? 0, 10);
    expect(thrice.said).toEqual(['If that was course 1, bring it up a little and pluck it again: it sounds like course 2.']);
    const brought = pluck(pluck(thrice.state, off(home[2]?.[0], 50), 13).state, off(home[2]?.[0], 50), 16).state;
    expect(advise(brought)).toMatchObject({ course: 3, action: 'tighten' });
  });

  test('nor is it lost where two others are known to stand there', () => {
    const once = pluck(begin('G4 C4 E4 G4', 'G4 C4 F4 G4'), home[0]?.[0] ?? 0, 1);
    expect(once.said).toEqual(['That sounds like course 4 or 1: pluck course 2.']);
    expect(advise(pluck(once.state, home[0]?.[0] ?? 0, 4).state)).toMatchObject({ course: 2, action: 'loosen' });
  });

  test('a fretted note is not taken for a turned peg', () => {
    for (const fret of [1, 2]) {
      const fretted = pluck(begin('G4 C4 E4 A4', 'G4 Bb3 E4 A4'), off(home[1]?.[0], 100 * fret + 4), 1);
      expect(fretted.said).toEqual(['Course 3 was not there before: pluck it open, by itself.']);
    }
  });

  test('nor is one three frets or more up a string that ran away', () => {
    for (const fret of [3, 4, 6, 8]) {
      const fretted = pluck(begin('G4 C4 E4 A4', 'G4 Bb3 E4 A4'), off(home[1]?.[0], 100 * fret + 6), 1);
      expect(fretted.state.stopped).toBeNull();
      expect(advise(fretted.state)).toMatchObject({ course: 1, action: 'pluck' });
      expect(advise(pluck(fretted.state, home[1]?.[0] ?? 0, 4).state)).toMatchObject({ course: 1, action: 'loosen' });
    }
  });

  test('a fretted note that lies on the way of a string to be raised is not the string on its way', () => {
    const fretted = pluck(begin('G4 C4 E4 A4', 'G4 D4 E4 A4'), off(home[1]?.[0], 206), 1);
    expect(fretted.said).toEqual(['Course 3 was not there before: pluck it open, by itself.']);
    expect(fretted.state.strings[1]?.landedAtSeconds).toBeNull();
    expect(advise(pluck(fretted.state, home[1]?.[0] ?? 0, 4).state)).toMatchObject({ course: 1, action: 'tighten' });
    const turned = pluck(fretted.state, off(home[1]?.[0], 206), 4).state;
    expect(advise(turned).centsToGo).toBeCloseTo(-6, -1);
  });

  test('but one that is being turned may be there', () => {
    const found = pluck(begin('G4 C4 E4 A4', 'G4 D4 E4 A4'), home[1]?.[0] ?? 0, 1).state;
    expect(pluck(found, off(home[1]?.[0], 104), 4).said).toEqual([]);
  });

  test('a note fretted so high that the open string would be about to break: what to do in either case is said, and nothing more', () => {
    const fretted = pluck(begin('G4 C4 E4 A4', 'G4 C4 E4 G4'), off(home[3]?.[0], 405), 1);
    expect(fretted.said).toEqual(['Course 1 was not there before. If that was the open string, loosen it; if not, pluck it open.']);
    expect(fretted.state.stopped).toBeNull();
    expect(advise(fretted.state)).toMatchObject({ course: 3, action: 'pluck', centsToGo: null });
    expect(advise(pluck(fretted.state, off(home[3]?.[0], 405), 4).state)).toMatchObject({ course: 3, action: 'stop' });
    expect(advise(pluck(begin('G4 C4 E4 A4', 'G4 C4 E4 G4'), off(home[3]?.[0], 455), 1).state)).toMatchObject({
      course: 3,
      action: 'stop',
    });
  });

  test('an octave off is said, and nothing is to be turned by it, however often it is heard', () => {
    const state = begin('G4 C4 E4 A4', 'G4 Bb3 E4 A4');
    const low = (home[1]?.[0] ?? 0) / 2;
    const once = pluck(state, low, 1);
    expect(once.said).toEqual(['Course 3 sounds an octave low: is it the right string? Pluck course 3 by itself.']);
    expect(advise(once.state)).toMatchObject({ course: 1, action: 'pluck', centsToGo: null });
    const twice = pluck(once.state, low, 4);
    expect(twice.said).toEqual(['Course 3 still sounds an octave low: if it has gone slack, bring it up a little and pluck it again.']);
    expect(advise(pluck(twice.state, low, 8).state)).toMatchObject({ course: 1, action: 'pluck', centsToGo: null });
    expect(advise(pluck(twice.state, home[1]?.[0] ?? 0, 8).state)).toMatchObject({ course: 1, action: 'loosen' });
    const high = pluck(state, 2 * (home[1]?.[0] ?? 0), 1);
    expect(high.said).toEqual(['Course 3 sounds an octave high: is it the right string? Pluck course 3 by itself.']);
    expect(pluck(high.state, 2 * (home[1]?.[0] ?? 0), 4).said).toEqual(['Course 3 still sounds an octave high: pluck it open, by itself.']);
  });

  test('but a string that has gone slack by an octave is known by its peg: brought up a little, it has moved', () => {
    const low = (home[1]?.[0] ?? 0) / 2;
    const slack = pluck(pluck(begin('G4 C4 E4 A4', 'G4 Bb3 E4 A4'), low, 1).state, low, 4).state;
    const moved = pluck(slack, off(low, 70), 8);
    expect(advise(pluck(moved.state, off(low, 70), 12).state)).toMatchObject({ course: 1, action: 'tighten' });
    const gliding = Array.from({ length: 30 }, (_, frame) => frame * 3).reduce((state, cents, frame) => {
      const since = 0.05 * (frame + 1);
      const frameOf = { atSeconds: 8 + since, hertz: off(low, cents), sigmaCents: 0.3, steady: false, sincePluckSeconds: since };
      return hear(state, frameOf).state;
    }, slack);
    expect(advise(pluck(gliding, off(low, 90), 12).state)).toMatchObject({ course: 1, action: 'tighten' });
  });

  test('so it is while its peg is turned, and where any course may be plucked', () => {
    const found = pluck(begin('G4 C4 E4 A4', 'G4 Bb3 E4 A4'), home[1]?.[0] ?? 0, 1).state;
    expect(pluck(found, (home[1]?.[0] ?? 0) / 2, 4).said).toHaveLength(1);
    const following = step(begin('G4 C4 E4 A4', 'G4 Bb3 E4 A4'), { kind: 'follow', atSeconds: 0, on: true }).state;
    expect(pluck(following, (home[1]?.[0] ?? 0) / 2, 1).said).toEqual([
      'Course 3 sounds an octave low: is it the right string? Pluck course 3 by itself.',
    ]);
  });

  test('a sound far from every course is asked about before the course was heard, and passed over afterwards', () => {
    const state = begin('G4 C4 E4 A4', 'G4 Bb3 E4 A4');
    const far = pluck(state, 82.4, 1);
    expect(far.said).toEqual(['No course was there before: pluck course 3 by itself.']);
    const found = pluck(far.state, home[1]?.[0] ?? 0, 4).state;
    expect(advise(found)).toMatchObject({ course: 1, action: 'loosen' });
    expect(pluck(found, 82.4, 8).said).toEqual([]);
  });

  test('where any course may be plucked, one that has had its turn is not found elsewhere while another waits: that one is asked for by name', () => {
    const following = step(begin('G4 C4 E4 A4', 'G4 C4 E4 Bb4'), { kind: 'follow', atSeconds: 0, on: true }).state;
    const found = pluck(following, home[3]?.[0] ?? 0, 0).state;
    const strayed = pluck(found, off(home[0]?.[0], -110), 4);
    expect(strayed.said).toEqual(['That could be course 1 or 4: pluck course 1.']);
    const again = pluck(strayed.state, off(home[0]?.[0], -110), 8);
    expect(advise(again.state)).toMatchObject({ course: 3, action: 'tighten' });
    expect(advise(again.state).centsToGo).toBeCloseTo(410, -1);
  });

  test('nor is a string that has had its turn preferred because the other one of its course still waits', () => {
    const [high, low] = [261.63, 130.81];
    const pairs = { scaleLengthMillimetres: 432, courses: [0, 1].map(() => ({ strings: [string, string] })) };
    const setup = {
      instrument: pairs,
      present: [
        [high, off(low, 90)],
        [off(high, 30), low],
      ],
      wanted: [
        [high, low],
        [high, low],
      ],
      toleranceCents: 3,
      atSeconds: 0,
    };
    const following = step(start(setup), { kind: 'follow', atSeconds: 0, on: true }).state;
    expect(advise(following)).toMatchObject({ course: 0, string: 1 });
    const heard = pluck(following, low, 1);
    expect(heard.said).toEqual(['That could be course 2 or 1: pluck course 2.']);
    const again = pluck(heard.state, low, 4);
    expect(again.effects).toContainEqual(expect.objectContaining({ kind: 'record', course: 0, string: 1 }));
  });

  test('a string rings on after it has landed: its sound is not the next one’s, tuned alike', () => {
    const state = begin('F4 C4 E4 G4', 'G4 C4 E4 G4');
    const turned = pluck(state, hertzOf('F4')[0]?.[0] ?? 0, 0, 0.3).state;
    const inDoubt = pluck(turned, state.strings[0]?.aimHertz ?? 0, 2).state;
    const landed = pluck(inDoubt, state.strings[0]?.aimHertz ?? 0, 4, 3);
    expect(landed.effects.flatMap((effect) => (effect.kind === 'record' ? [effect.course] : []))).toEqual([0]);
    expect(advise(landed.state).course).not.toBe(0);
  });

  test('one sound stays one string’s while its peg takes it past another', () => {
    let state = begin('G4 C4 E4 A4', 'G4 C4 A4 A4');
    for (let frame = 1; frame < 120; frame += 1) {
      const cents = Math.min(500, Math.max(0, frame - 10) * 5);
      const heard = {
        atSeconds: frame * 0.05,
        hertz: off(home[2]?.[0], cents),
        sigmaCents: 0.3,
        steady: false,
        sincePluckSeconds: frame * 0.05,
      };
      const next = hear(state, heard);
      expect(next.match).toMatchObject({ kind: 'match', course: 2 });
      state = next.state;
    }
    expect(state.doubt).toBeNull();
  });

  test('any course may be plucked, but two that stand alike are asked for by name', () => {
    const following = step(begin('G4 C4 E4 G4', 'G4 C4 E4 G4'), { kind: 'follow', atSeconds: 0, on: true }).state;
    const heard = pluck(following, home[0]?.[0] ?? 0, 1);
    expect(heard.said).toHaveLength(1);
    expect(heard.said[0]).toContain('course 4 or 1');
    const { course } = advise(heard.state);
    const again = pluck(heard.state, home[0]?.[0] ?? 0, 4);
    expect(again.effects).toContainEqual(expect.objectContaining({ kind: 'record', course }));
  });
});

describe('one pluck or two', () => {
  /** A sound of which no beginning was heard. */
  const ringing = (state: CoachState, hertz: number, from: number, to: number): CoachState => {
    let now = state;
    for (let at = from; at < to; at += 0.05)
      now = hear(now, { atSeconds: at, hertz, sigmaCents: 0.2, steady: true, sincePluckSeconds: null }).state;
    return now;
  };
  const g4 = home[0]?.[0] ?? 0;

  test('a tone that never stops is one pluck, though listening was interrupted: nothing is believed twice', () => {
    const doubtful = ringing(begin('G4 C4 E4 A4', 'G4 C4 A4 A4'), g4, 1, 2);
    const after = ringing(doubtful, g4, 3, 4);
    expect(advise(after)).toMatchObject({ course: 2, action: 'pluck' });
    expect(after.strings[2]?.visit).toBeNull();
  });

  test('nor when the pluck was heard, and only what rings on of it after the interruption', () => {
    const doubtful = pluck(begin('G4 C4 E4 A4', 'G4 C4 A4 A4'), g4, 1).state;
    expect(ringing(doubtful, g4, 3, 4).strings[2]?.visit).toBeNull();
  });

  test('a pluck that is heard on top of such a tone is the second one, however soon it comes', () => {
    const doubtful = ringing(begin('G4 C4 E4 A4', 'G4 C4 A4 A4'), g4, 1, 2);
    expect(advise(pluck(doubtful, g4, 2).state)).toMatchObject({ course: 2, action: 'tighten' });
  });

  /** The next string is plucked while one still rings: for a moment that one is what is heard. */
  const over = (state: CoachState, rings: number, plucked: number, at: number) => {
    const sentences: string[] = [];
    let now = state;
    for (let since = 0.05; since < 1; since += 0.01) {
      const frame = {
        atSeconds: at + since,
        hertz: since < 0.075 ? rings : plucked,
        sigmaCents: 0.3,
        steady: true,
        sincePluckSeconds: since,
      };
      const next = hear(now, frame);
      for (const effect of next.effects) if (effect.kind === 'announce') sentences.push(effect.sentence);
      now = next.state;
    }
    return { state: now, sentences };
  };

  test('the string before, which still rings when the next one is plucked, is not said to be plucked in its place', () => {
    const found = pluck(begin('G4 C4 E4 A4', 'G4 Bb3 E4 B4'), home[1]?.[0] ?? 0, 0, 0.5).state;
    const landed = pluck(found, found.strings[1]?.aimHertz ?? 0, 2, 2.5);
    expect(advise(landed.state)).toMatchObject({ course: 3, action: 'pluck' });
    const next = over(landed.state, found.strings[1]?.aimHertz ?? 0, home[3]?.[0] ?? 0, 4.5);
    expect(next.sentences).toEqual([]);
    expect(advise(next.state)).toMatchObject({ course: 3, action: 'tighten' });
  });

  test('but where it drowns the next one for good, that is said', () => {
    const found = pluck(begin('G4 C4 E4 A4', 'G4 Bb3 E4 B4'), home[1]?.[0] ?? 0, 0, 0.5).state;
    const landed = pluck(found, found.strings[1]?.aimHertz ?? 0, 2, 2.5);
    const next = pluck(landed.state, found.strings[1]?.aimHertz ?? 0, 4.5);
    expect(next.said).toEqual(['Course 3 still rings: stop it, and pluck course 1.']);
    const drowned = pluck(next.state, found.strings[1]?.aimHertz ?? 0, 5.5);
    expect(drowned.said).toEqual([]);
    expect(drowned.state.strings[3]?.visit).toBeNull();
    const byItself = pluck(drowned.state, found.strings[1]?.aimHertz ?? 0, 9);
    expect(byItself.said).toEqual(['If that was course 1, bring it up a little and pluck it again: it sounds like course 3.']);
  });

  test('nor is it the second pluck of what is in doubt', () => {
    const doubtful = pluck(begin('G4 C4 E4 A4', 'G4 C4 A4 A4'), g4, 1).state;
    const next = over(doubtful, g4, home[2]?.[0] ?? 0, 2);
    expect(next.sentences).toEqual([]);
    expect(next.state.strings[2]?.visit?.before.hertz).toBe(home[2]?.[0]);
  });

  test('where no pluck is ever heard, a long silence tells two sounds apart', () => {
    const doubtful = ringing(begin('G4 C4 E4 A4', 'G4 C4 A4 A4'), g4, 1, 2);
    expect(advise(ringing(doubtful, g4, 20, 21))).toMatchObject({ course: 2, action: 'tighten' });
  });
});

describe('after a strum', () => {
  test('what still rings of it is not taken for a pluck', () => {
    const strumming = start({ instrument, present: home, wanted: home, toleranceCents: 3, atSeconds: 0, strumCheck: true });
    const courses = home.map(([hertz = 0], course) => [course === 3 ? { refusal: 'unclear' } : { hertz, sigmaCents: 0.3 }]);
    const asked = step(strumming, { kind: 'strum', atSeconds: 3, courses }).state;
    expect(advise(asked)).toMatchObject({ course: 3, action: 'pluck' });
    let ringing = asked;
    for (let at = 3.05; at < 6; at += 0.05)
      ringing = hear(ringing, { atSeconds: at, hertz: home[3]?.[0] ?? 0, sigmaCents: 0.2, steady: true, sincePluckSeconds: at - 2 }).state;
    expect(ringing.strings[3]?.landedAtSeconds).toBeNull();
    expect(pluck(ringing, home[3]?.[0] ?? 0, 7).state.phase).toBe('done');
  });

  test('nor is the player told of it when the next pluck has not yet risen above it', () => {
    const strumming = start({ instrument, present: home, wanted: home, toleranceCents: 3, atSeconds: 0, strumCheck: true });
    const courses = home.map(([hertz = 0], course) => [course === 3 ? { refusal: 'unclear' } : { hertz, sigmaCents: 0.3 }]);
    let now = step(strumming, { kind: 'strum', atSeconds: 3, courses }).state;
    for (let since = 0.05; since < 1; since += 0.01) {
      const hertz = home[since < 0.075 ? 2 : 3]?.[0] ?? 0;
      const next = hear(now, { atSeconds: 5 + since, hertz, sigmaCents: 0.3, steady: true, sincePluckSeconds: since });
      expect(next.effects.filter(({ kind }) => kind === 'announce')).toEqual([]);
      now = next.state;
    }
    expect(now.phase).toBe('done');
  });

  test('nor what rings on when listening was interrupted, so that the strum is not known by its beginning', () => {
    const strumming = start({ instrument, present: home, wanted: home, toleranceCents: 3, atSeconds: 0, strumCheck: true });
    const courses = home.map(([hertz = 0], course) => [course === 3 ? { refusal: 'unclear' } : { hertz, sigmaCents: 0.3 }]);
    let now = step(strumming, { kind: 'strum', atSeconds: 3, courses }).state;
    for (let at = 5; at < 7; at += 0.05)
      now = hear(now, { atSeconds: at, hertz: home[3]?.[0] ?? 0, sigmaCents: 0.2, steady: true, sincePluckSeconds: null }).state;
    expect(now.strings[3]?.landedAtSeconds).toBeNull();
    expect(pluck(now, home[3]?.[0] ?? 0, 7).state.phase).toBe('done');
  });

  test('a pluck at the very moment when the strum was read is heard from its first frame to its last', () => {
    const strumming = start({ instrument, present: home, wanted: home, toleranceCents: 3, atSeconds: 0, strumCheck: true });
    const courses = home.map(([hertz = 0], course) => [course === 3 ? { refusal: 'unclear' } : { hertz, sigmaCents: 0.3 }]);
    const atSeconds = 3.1;
    const asked = step(strumming, { kind: 'strum', atSeconds, courses }).state;
    expect(pluck(asked, home[3]?.[0] ?? 0, atSeconds, 0.9).state.phase).toBe('done');
  });
});
