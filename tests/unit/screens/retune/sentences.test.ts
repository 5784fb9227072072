import { describe, expect, test } from 'vitest';
import { cents } from '#shared/units/index.ts';
import { headWords } from '../../../../src-renderer/screens/retune/head-words.ts';
import { pairOf } from '../../../../src-renderer/screens/retune/pair.ts';
import { progressWords } from '../../../../src-renderer/screens/retune/progress.ts';
import { instruction, pitchWords, spoken, thenWords, whichString } from '../../../../src-renderer/screens/retune/sentences.ts';
import { after, sounding, wrenLed } from './led.ts';

describe('the next instruction', () => {
  test('names the course, from where to where, the way and how far', () => {
    expect(instruction(wrenLed())).toMatch(/^Course 3, C4 → B♭3: loosen, (about )?a tone\.$/u);
  });

  test('says what keeps the retune from going on', () => {
    expect(instruction(after(wrenLed(), { kind: 'pause', atSeconds: 1 }))).toBe('Paused.');
    const stopped = { ...wrenLed().coach, stopped: 'Stop: this string carries too much.' };
    expect(instruction(wrenLed({ coach: stopped }))).toBe('Stop: this string carries too much.');
  });

  test('is read out with words in place of signs', () => {
    expect(spoken('Course 3, C4 → B♭3: loosen, about a tone.')).toBe('Course 3, C4 to B flat 3: loosen, about a tone.');
    expect(spoken('E5 · E4: 3½ c below')).toBe('E5 and E4: 3 and a half cents below');
    expect(spoken('12 c above F♯4')).toBe('12 cents above F sharp 4');
  });

  test('of the course after it is one glance long', () => {
    expect(thenWords(wrenLed())).toBe('then 2 loosen, E4 → E♭4');
  });
});

describe('a double course', () => {
  test('spells a unison once and an octave twice', () => {
    expect(pitchWords(['G4', 'G4'] as never)).toBe('G4');
    expect(pitchWords(['E5', 'E4'] as never)).toBe('E5 · E4');
  });

  test('names its strings as the player sees them, also where the instrument is strung upside down', () => {
    expect(whichString(0, 2, { upsideDown: false })).toBe('the one nearer your eye');
    expect(whichString(0, 2, { upsideDown: true })).toBe('the one nearer the floor');
    expect(whichString(0, 1, { upsideDown: false })).toBe('');
  });

  test('beats as fast as its strings are apart in hertz', () => {
    const [one] = wrenLed().coach.strings;
    if (one === undefined) throw new RangeError('no string');
    const at = (cents: number, string: number) => ({ ...one, string, sigmaCents: 0.2, presentHertz: one.aimHertz * 2 ** (cents / 1200) });
    // 7 cents at 392 Hz are 1.59 Hz.
    const { pair, other } = pairOf([at(7, 0), at(0, 1)], 0, { upsideDown: false });
    expect(pair).toBe('Two strings 7.0 c apart, beating about 1½ times a second');
    expect(other).toBe('the one nearer the floor is under 0.1 c above');
  });
});

describe('the word to obey', () => {
  test('is to pluck before a string was heard, then the way', () => {
    const led = wrenLed();
    expect(headWords(led, 1)).toMatchObject({ number: '3', command: 'pluck', cents: 'and loosen', amount: 'a tone' });
    expect(headWords(sounding(led, 1, 37, 1, 0.3), 1)).toMatchObject({ command: 'loosen', hue: 'above', cents: '37 c' });
    expect(headWords(sounding(led, 1, -37, 1, 0.3), 1)).toMatchObject({ command: 'tighten', hue: 'below' });
  });

  test('has the notice large under it when the peg is turned the wrong way, and the figure after it', () => {
    const away = sounding(sounding(wrenLed(), 1, 37, 1, 0.3), 1, 60, 2, 0.3);
    expect(headWords(away, 1)).toMatchObject({ command: 'loosen', cents: 'the other way', amount: '60 c to go', isNews: true });
  });

  test('asks whether it is the right peg where plucks in a row stay where they were', () => {
    const again = [1, 5, 10].reduce((led, at) => sounding(led, 1, 37, at, 0.3), wrenLed());
    expect(headWords(again, 1)).toMatchObject({ cents: 'isn’t changing', amount: 'is that its peg? 37 c to go' });
  });

  test('is to wait while a string sounds and is not read surely, and to pluck again once it is still', () => {
    const heard = { course: 1, string: 0, hertz: wrenLed().coach.strings[1]?.aimHertz ?? 0, sigmaCents: 5, steady: true };
    const unsure = after(wrenLed(), { kind: 'reading', atSeconds: 1, ...heard });
    const match = { kind: 'match', course: 1, string: 0, deviationCents: cents(0), certainty: 1, others: [] } as const;
    expect(headWords({ ...unsure, live: { hertz: heard.hertz, sigmaCents: 5, atMilliseconds: 0, match } }, 1).command).toBe('wait');
    expect(headWords(unsure, 1)).toMatchObject({ command: 'pluck', cents: 'once more' });
  });

  test('is stop, without a hue, when the break guard has stepped in', () => {
    const led = wrenLed();
    expect(headWords({ ...led, advice: { ...led.advice, action: 'stop' } }, 1)).toMatchObject({ command: 'stop', hue: '' });
  });
});

test('progress counts courses that moved and names what comes next', () => {
  const led = wrenLed();
  expect(progressWords(led)).toEqual({ done: '0 of 3 courses moved.', next: 'Next 2: loosen a semitone.' });
  const landed = sounding(led, 1, 0.4, 1, 2);
  expect(progressWords(landed).done).toBe('1 of 3 courses moved.');
});
