import { describe, expect, test } from 'vitest';
import { advise, type CoachState, type Effect, hear, listenFor, start, step } from '#shared/guidance/index.ts';
import { hertzOf } from '../../support/pitches.ts';

const string = { material: 'fluorocarbon', wound: false, daysSinceChange: null, linearDensityKilogramsPerMetre: null } as const;
const instrument = { scaleLengthMillimetres: 432, courses: Array.from({ length: 4 }, () => ({ strings: [string] })) };
const home = hertzOf('G4 C4 E4 A4');
const lantern = hertzOf('G4 Bb3 Eb4 Bb4');
const begin = (present = home, wanted = lantern): CoachState => start({ instrument, present, wanted, toleranceCents: 3, atSeconds: 0 });
const off = (hertz: number | undefined, cents: number): number => (hertz ?? Number.NaN) * 2 ** (cents / 1200);

/** Sounds one string for a while, 20 frames a second, and gathers what the coach wants done. */
function sound(state: CoachState, course: number, hertz: number, seconds: number, from: number, sigmaCents = 0.2) {
  const effects: Effect[] = [];
  let now = state;
  for (let at = from; at < from + seconds; at += 0.05) {
    const next = step(now, { kind: 'reading', atSeconds: at, course, string: 0, hertz, sigmaCents, steady: true });
    effects.push(...next.effects);
    now = next.state;
  }
  return { state: now, effects };
}

describe('the coach asks for one course after the other', () => {
  test('loosening first, the largest first: 3, then 2, then 1', () => {
    const state = begin();
    expect(state.queue.map((place) => state.strings[place]?.course)).toEqual([1, 2, 3]);
    expect(advise(state)).toMatchObject({ course: 1, action: 'pluck' });
  });

  test('above its aim it says loosen, below it tighten, and by how much', () => {
    const above = sound(begin(), 1, off(lantern[1]?.[0], 37), 0.1, 0).state;
    expect(advise(above)).toMatchObject({ course: 1, action: 'loosen' });
    const { centsToGo, couplingCents } = advise(above);
    expect(centsToGo).toBeCloseTo(-37 + (couplingCents ?? Number.NaN), 6);
    const below = sound(begin(), 1, off(lantern[1]?.[0], -12), 0.1, 0).state;
    expect(advise(below)).toMatchObject({ action: 'tighten' });
  });

  test('it names no direction while the interval spans the aim', () => {
    const unsure = sound(begin(), 1, off(lantern[1]?.[0], 8), 0.1, 0, 12).state;
    expect(advise(unsure).action).toBe('pluck');
  });

  test('a string that is within tolerance but not surely so does not land', () => {
    const { effects } = sound(begin(), 1, off(lantern[1]?.[0], 2), 3, 0, 1.5);
    expect(effects).toEqual([]);
  });

  test('what the player put right by a small turn is logged as one, so that it is not taken for what the other pegs did; wander is not', () => {
    const turned = (sigmaCents: number) => {
      const found = sound(begin(), 1, off(lantern[1]?.[0], 4), 0.3, 0, sigmaCents).state;
      const { effects } = sound(found, 1, off(lantern[1]?.[0], 0.5), 1.5, 2, sigmaCents);
      expect(effects.map(({ kind }) => kind)).toContain('record');
      return effects.filter(({ kind }) => kind === 'turned');
    };
    const [small] = turned(0.2);
    expect(small).toMatchObject({ course: 1, string: 0 });
    expect(small?.kind === 'turned' ? small.cents : Number.NaN).toBeCloseTo(-3.5, 6);
    expect(turned(1)).toEqual([]);
  });

  test('it goes on when the string has sounded surely inside for 0.6 s, and records what was reached', () => {
    const turned = sound(begin(), 1, home[1]?.[0] ?? 0, 0.3, 0).state;
    const { state, effects } = sound(turned, 1, off(lantern[1]?.[0], 0.4), 1, 2);
    const record = effects.find(({ kind }) => kind === 'record');
    expect(record).toMatchObject({ course: 1, sigmaCents: 0.2 });
    expect(record?.kind === 'record' ? 1200 * Math.log2(record.hertz / (lantern[1]?.[0] ?? 1)) : Number.NaN).toBeCloseTo(0.4, 6);
    const turn = effects.find(({ kind }) => kind === 'turned');
    expect(turn?.kind === 'turned' ? turn.cents : Number.NaN).toBeCloseTo(-199.6, 6);
    expect(advise(state).course).toBe(2);
  });

  test('a string that lies near the edge of its tolerance is heard once, not again and again while no peg is turned', () => {
    const near = [0, 2.6, -1, 2.5].map((cents, course) => [off(home[course]?.[0], cents)]);
    let state = begin(near, home);
    const records: Effect[] = [];
    for (let at = 0; advise(state).action === 'pluck' && at < 100; at += 2) {
      const course = advise(state).course ?? 0;
      const next = sound(state, course, near[course]?.[0] ?? 0, 1, at);
      records.push(...next.effects.filter(({ kind }) => kind === 'record'));
      state = next.state;
    }
    expect(advise(state).action).toBe('done');
    expect(records).toHaveLength(4);
  });

  test('silence between two plucks is not time inside', () => {
    let state = begin();
    const effects: Effect[] = [];
    for (const at of [0, 5, 10, 15]) {
      const next = step(state, {
        kind: 'reading',
        atSeconds: at,
        course: 1,
        string: 0,
        hertz: lantern[1]?.[0] ?? 0,
        sigmaCents: 0.2,
        steady: true,
      });
      state = next.state;
      effects.push(...next.effects);
    }
    expect(effects).toEqual([]);
  });

  test('the glide of a hard pluck does not colour the reading once the string stands still', () => {
    let state = begin();
    const effects: Effect[] = [];
    for (let frame = 0; frame < 30; frame += 1) {
      const glide = 2.4 * Math.exp(-frame / 4);
      const event = {
        kind: 'reading',
        atSeconds: frame * 0.05,
        course: 1,
        string: 0,
        hertz: off(lantern[1]?.[0], glide),
        sigmaCents: 0.2,
        steady: frame > 8,
      } as const;
      const next = step(state, event);
      state = next.state;
      effects.push(...next.effects);
    }
    const record = effects.find(({ kind }) => kind === 'record');
    expect(record?.kind === 'record' ? Math.abs(1200 * Math.log2(record.hertz / (lantern[1]?.[0] ?? 1))) : Number.NaN).toBeLessThan(0.3);
  });
});

describe('a whole retune', () => {
  test('ends when every course has been heard in its place after the last turn', () => {
    let state = begin();
    const recorded: number[] = [];
    let at = 0;
    for (let visits = 0; visits < 12 && state.phase !== 'done'; visits += 1) {
      const course = advise(state).course ?? 0;
      const present = sound(state, course, state.strings[course]?.presentHertz ?? 0, 0.2, at).state;
      const landed = sound(present, course, lantern[course]?.[0] ?? 0, 1, at + 1);
      recorded.push(...landed.effects.flatMap((effect) => (effect.kind === 'record' ? [effect.course] : [])));
      state = landed.state;
      at += 3;
    }
    expect(state.phase).toBe('done');
    expect(recorded.slice(0, 3)).toEqual([1, 2, 3]);
    expect(new Set(recorded)).toEqual(new Set([0, 1, 2, 3]));
    expect(advise(state).action).toBe('done');
  });

  test('an instrument that is already there is only checked', () => {
    const state = begin(lantern, lantern);
    expect(state.phase).toBe('rechecking');
    expect(state.queue).toHaveLength(4);
  });
});

describe('the player’s own steps', () => {
  test('skip leaves a course as it is, back returns to it', () => {
    const skipped = step(begin(), { kind: 'skip', atSeconds: 1 }).state;
    expect(advise(skipped).course).toBe(2);
    expect(advise(step(skipped, { kind: 'back', atSeconds: 2 }).state).course).toBe(1);
  });

  test('while paused nothing lands', () => {
    const paused = step(begin(), { kind: 'pause', atSeconds: 0 }).state;
    expect(sound(paused, 1, lantern[1]?.[0] ?? 0, 2, 1).effects).toEqual([]);
    expect(advise(paused).action).toBe('wait');
    expect(advise(step(paused, { kind: 'resume', atSeconds: 4 }).state).action).toBe('pluck');
  });

  test('with any course allowed, the one that is plucked becomes the current one', () => {
    const following = step(begin(), { kind: 'follow', atSeconds: 0, on: true }).state;
    const heard = sound(following, 3, home[3]?.[0] ?? 0, 0.1, 1).state;
    expect(advise(heard)).toMatchObject({ course: 3, action: 'tighten' });
  });
});

describe('nothing is broken', () => {
  test('a string running away upwards stops the guidance at once', () => {
    const heard = sound(begin(), 3, home[3]?.[0] ?? 0, 0.1, 0).state;
    const asked = step(step(heard, { kind: 'skip', atSeconds: 0.2 }).state, { kind: 'skip', atSeconds: 0.3 }).state;
    const runaway = sound(asked, 3, off(lantern[3]?.[0], 350), 0.1, 1);
    expect(runaway.effects).toContainEqual({ kind: 'cue', cue: 'stop' });
    expect(advise(runaway.state).action).toBe('stop');
  });

  test('tightening past the limit for breaking stops, and goes on below it', () => {
    // 432 mm, PVDF limit 240 Hz·m: 85 % of the breaking stress is reached at 512 Hz.
    const wanted = hertzOf('G4 C4 E4 B4');
    const state = begin(home, wanted);
    const up = sound(sound(state, 3, 440, 0.1, 0).state, 3, 516, 0.1, 1);
    expect(advise(up.state).action).toBe('stop');
    expect(advise(up.state).why).toContain('% of what breaks it');
    expect(advise(sound(up.state, 3, 495, 0.1, 2).state).action).not.toBe('stop');
  });
});

describe('hearing', () => {
  test('a frame is matched to its course before the coach is asked', () => {
    const heard = hear(begin(), { atSeconds: 1, hertz: off(lantern[1]?.[0], 50), sigmaCents: 0.3, steady: false });
    expect(heard.match).toMatchObject({ kind: 'match', course: 1 });
    expect(heard.advice).toMatchObject({ course: 1, action: 'loosen' });
  });

  test('a frame that cannot be told apart changes nothing', () => {
    const state = begin();
    expect(hear(state, { atSeconds: 1, hertz: 100, sigmaCents: 0.3, steady: false }).state).toBe(state);
  });

  test('the tracker is told what may sound and which string was asked for', () => {
    expect(listenFor(begin())).toEqual({ hertz: home.flat(), asked: 1 });
  });
});

describe('a course with a scale length of its own', () => {
  test('is guarded by it: a banjo’s short fifth string takes a pitch that would break a long one', () => {
    const wanted = [[440], [165], [220], [247], [330]];
    const present = [[392], [147], [196], [247], [294]];
    const banjo = (short: number | null) => ({
      scaleLengthMillimetres: 667,
      courses: wanted.map((_, course) => ({
        strings: [{ ...string, material: 'steel' as const }],
        scaleLengthMillimetres: course === 0 ? short : null,
      })),
    });
    const after = (short: number | null) => {
      const state = step(start({ instrument: banjo(short), present, wanted, toleranceCents: 3, atSeconds: 0 }), {
        kind: 'follow',
        atSeconds: 0,
        on: true,
      }).state;
      return advise(sound(sound(state, 0, 392, 0.1, 0).state, 0, 443, 0.1, 1).state).action;
    };
    expect(after(null)).toBe('stop');
    expect(after(500)).not.toBe('stop');
  });
});
