import { describe, expect, test } from 'vitest';
import { retuneEnd } from '../../../src-renderer/stores/retune-end.ts';
import { stateOf } from '../../../src-renderer/stores/strings.ts';
import { after, sounding, wrenLed } from '../screens/retune/led.ts';
import { instrumentOf, readingOf, settings, tuningOf } from '../screens/wren.ts';

const named = () => {
  const led = wrenLed();
  const whole = { ...led.whole, name: 'Lantern E♭' };
  return { ...led, from: { ...led.from, name: 'Home' }, to: whole, whole };
};
const skip = (now: ReturnType<typeof wrenLed>, atSeconds: number) => after(now, { kind: 'skip', atSeconds });
/** The course asked for is found where it was, turned, and lands. */
const turn = (now: ReturnType<typeof wrenLed>, atSeconds: number) => {
  const course = now.advice.course ?? -1;
  return sounding(sounding(now, course, 200, atSeconds, 0.3), course, 0, atSeconds + 2, 2);
};

describe('what an instrument is in when a retune is over', () => {
  test('whoever skips every course has not retuned it: it is in the tuning it was in', () => {
    const skipped = skip(skip(skip(named(), 1), 2), 3);
    expect(retuneEnd(skipped)).toEqual({ isRetuned: false, tuning: 'Home', left: [1, 2, 3] });
  });

  test('every course brought to its pitch: it is in the new one', () => {
    const turned = turn(turn(turn(named(), 1), 10), 20);
    expect(retuneEnd(turned)).toEqual({ isRetuned: true, tuning: 'Lantern E♭', left: [] });
  });

  test('a course that was skipped is named; where most were, it is still in the old tuning but for the one that was turned', () => {
    const most = skip(turn(turn(named(), 1), 10), 20);
    expect(retuneEnd(most)).toMatchObject({ isRetuned: true, tuning: 'Lantern E♭ but for course 1' });
    const one = skip(skip(turn(named(), 1), 10), 11);
    expect(retuneEnd(one)).toMatchObject({ isRetuned: false, tuning: 'Home but for course 3' });
  });

  test('only the other courses were turned: the one that was left out is named', () => {
    const led = named();
    const hertz = led.whole.hertz.map((strings, course) => (course === 3 ? (led.from.hertz[3] ?? []) : strings));
    const strings = led.coach.strings.map((one) => (one.course === 3 ? { ...one, wantedHertz: 440, aimHertz: 440 } : one));
    const others = turn(
      turn({ ...led, to: { ...led.to, hertz }, coach: { ...led.coach, strings, queue: led.coach.queue.slice(0, 2) } }, 1),
      10,
    );
    expect(retuneEnd(others)).toMatchObject({ isRetuned: true, tuning: 'Lantern E♭ but for course 1', left: [3] });
  });
});

describe('the tuning that an instrument is said to be in', () => {
  const lantern = tuningOf('Lantern', 'G4 Bb3 Eb4 Bb4', 'G4 C4 E4 A4');
  const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
  const row = { id: 'one', instrumentId: 'wren', stringSetId: 'wren-set', startedAt: 1, finishedAt: 2, wantedHertz: [[1]] };
  const lastRetune = { ...row, fromTuningId: null, toTuningId: lantern.id };
  const heard = (change: Partial<typeof wren>) => ({ ...wren, lastReadings: [readingOf(3, 440, 466.2, 2)], ...change });
  const inLantern = { ...wren.instrument, tuningId: lantern.id };
  const nameOf = (overview: typeof wren) => stateOf(overview, [lantern], settings).name;

  test('names the courses that its last retune left elsewhere', () => {
    expect(nameOf(heard({ instrument: inLantern, lastRetune }))).toBe('Lantern but for course 1');
    expect(nameOf(heard({ instrument: inLantern, lastRetune, lastReadings: [readingOf(3, 466, 466.2, 2)] }))).toBe('Lantern');
  });

  test('where a retune was left midway it is in the old one, but for the courses that were turned', () => {
    const midway = { ...lastRetune, finishedAt: null };
    const lastReadings = [readingOf(1, 233.1, 233.1, 2)];
    expect(nameOf(heard({ lastRetune: midway, lastReadings }))).toBe('Home but for course 3');
  });

  test('is what the player has said since', () => {
    expect(nameOf(heard({ instrument: inLantern, lastRetune: { ...lastRetune, toTuningId: null } }))).toBe('Lantern');
  });
});
