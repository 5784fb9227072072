import { describe, expect, test } from 'vitest';
import { announce, restMilliseconds, type Said, type Scene, sceneOf } from '../../../../src-renderer/screens/retune/announce.ts';
import { sounding, wrenLed } from './led.ts';

const calm: Scene = {
  place: 1,
  way: null,
  notice: null,
  stopped: null,
  paused: false,
  trouble: null,
  instruction: 'Course 3, C4 → B♭3: loosen, a tone.',
  landed: null,
  outcome: null,
};

/** What is said of scenes that follow one another, each so many milliseconds after the one before. */
function told(scenes: readonly (Partial<Scene> & { readonly after?: number })[]): readonly (string | null)[] {
  let said: Said | null = null;
  let at = 0;
  return scenes.map(({ after = restMilliseconds, ...change }) => {
    at += after;
    const heard = announce(said, { ...calm, ...change }, at);
    said = heard.said;
    return heard.sentence;
  });
}

describe('what is announced', () => {
  test('the first instruction, and nothing more while the string is turned the way that was named', () => {
    expect(told([{}, { way: 'loosen' }, { way: 'loosen' }])).toEqual([calm.instruction, null, null]);
  });

  test('that a course is there, together with the next instruction', () => {
    const next = { place: 2, landed: 'Course 3 is there.', instruction: 'Course 2, E4 → E♭4: loosen, a semitone.' };
    expect(told([{}, next])[1]).toBe('Course 3 is there. Course 2, E4 → E♭4: loosen, a semitone.');
  });

  test('no landing where a course was skipped', () => {
    expect(told([{}, { place: 2, instruction: 'Course 2: loosen, a semitone.' }])[1]).toBe('Course 2: loosen, a semitone.');
  });

  test('a turn past the aim, once: the way has changed', () => {
    const past = { way: 'tighten', instruction: 'Course 3, C4 → B♭3: tighten, a hair.' } as const;
    expect(told([{}, { way: 'loosen' }, past, past])).toEqual([calm.instruction, null, past.instruction, null]);
  });

  test('“the other way” each time that it comes up, not as long as it stands', () => {
    const wrong = { notice: 'The other way.', way: 'loosen' } as const;
    expect(told([{}, wrong, wrong, { way: 'loosen' }, wrong])).toEqual([calm.instruction, 'The other way.', null, null, 'The other way.']);
  });

  test('a notice that had to wait for the next course', () => {
    const wrong = { place: 2, notice: 'The other way.', instruction: 'Course 2: tighten, a semitone.', way: 'tighten' } as const;
    expect(told([{}, wrong, wrong])).toEqual([calm.instruction, 'Course 2: tighten, a semitone.', 'The other way.']);
  });

  test('a caution before everything else', () => {
    expect(told([{}, { stopped: 'Stop: loosen it.', trouble: 'The microphone is gone.', place: 2 }])[1]).toBe('Stop: loosen it.');
  });

  test('a lost microphone, and that it is back', () => {
    expect(told([{}, { trouble: 'The pickup is gone.' }, { trouble: 'The pickup is gone.' }, {}])).toEqual([
      calm.instruction,
      'The pickup is gone.',
      null,
      `Listening again. ${calm.instruction}`,
    ]);
  });

  test('at most one sentence in two seconds; what was held back comes then', () => {
    const next = { place: 2, instruction: 'Course 2: loosen.' };
    expect(told([{}, { ...next, after: 300 }, { ...next, after: 300 }, { ...next, after: 1500 }])).toEqual([
      calm.instruction,
      null,
      null,
      'Course 2: loosen.',
    ]);
  });
});

test('a whole course, frame by frame, is two sentences', () => {
  let led = wrenLed();
  let said: Said | null = null;
  const sentences: string[] = [];
  const cents = [200, 170, 120, 80, 40, 12, 5, 0.4, 0.4, 0.4];
  for (const [index, here] of cents.entries()) {
    if (led.advice.course !== 1) break;
    led = sounding(led, 1, here, index + 1, 0.9);
    const heard: ReturnType<typeof announce> = announce(said, sceneOf(led, null), index * 1000);
    said = heard.said;
    if (heard.sentence !== null) sentences.push(heard.sentence);
  }
  expect(sentences).toHaveLength(2);
  expect(sentences[1]).toMatch(/^Course 3 is there\. Course 2, E4 → E♭4: loosen/u);
});
