import { expect, test } from 'vitest';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { parsePitches } from '#shared/music/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { breakTitle } from '../../../../src-renderer/screens/retune/break-words.ts';
import { capoWords, withCapo } from '../../../../src-renderer/screens/retune/capo.ts';
import { leaving } from '../../../../src-renderer/screens/retune/leaving.ts';
import { wayTo } from '../../../../src-renderer/stores/plan.ts';
import { tuningOn } from '../../../../src-renderer/stores/strings.ts';
import { instrumentOf } from '../wren.ts';

const settings: Settings = {
  referenceHertz: 440,
  toleranceCents: 3,
  theme: 'system',
  soundCues: true,
  microphoneLabel: null,
  noteLanguage: 'english',
  speaks: false,
};

function pitchesOf(written: string) {
  const parsed = parsePitches(written);
  if ('notAPitch' in parsed) throw new RangeError(written);
  return parsed;
}

/** The way of an instrument at home to pitches written for it. */
function wayOn(overview: Overview, written: string) {
  const home = overview.stringSet.courses.map((course) => [...course.home]);
  const courses = pitchesOf(written).map((pitch) => ({ pitches: [pitch], offsetCents: 0 }));
  const tuning: Tuning = { id: 'x', name: 'High', courses, home, favourite: false, tags: [], notes: '' };
  const way = wayTo({ overview, tunings: [tuning], tuning, settings });
  if (way === null) throw new RangeError('not for this instrument');
  return way;
}

const tenor = instrumentOf('ukulele-tenor-high-g', 'Wren');

test('a tone higher on a tenor is home with a capo at the 2nd fret, and nothing is turned', () => {
  const capo = withCapo(tenor, wayOn(tenor, 'A4 D4 F#4 B4'), 440);
  if (capo === null) throw new RangeError('no capo');
  expect(capoWords(capo)).toBe('G4 C4 E4 A4 with a capo at the 2nd fret. Every course stays where it is.');
});

test('no capo is offered with which a string would still come near breaking', () => {
  expect(withCapo(tenor, wayOn(tenor, 'G4 C4 E4 C#6'), 440)).toBeNull();
});

test('what becomes of the courses with a capo is said by number', () => {
  const at = { fret: 2, pitches: pitchesOf('G4 C4 E4 A4').map((pitch) => [pitch]), moves: [-100, 3, -100, 0] };
  expect(capoWords(at)).toBe('G4 C4 E4 A4 with a capo at the 2nd fret. Courses 4 and 2 loosen, 3 and 1 stay.');
  expect(capoWords({ ...at, moves: [0, 0, 0, 0] })).toContain('Every course stays where it is.');
  expect(capoWords({ ...at, moves: [0, 100, 0, 0] })).toContain('Course 3 tightens, 4, 2 and 1 stay.');
});

test('a capo misses the short fifth string of a banjo, so none is offered', () => {
  const banjo = instrumentOf('banjo-five-string', 'Jackdaw');
  expect(withCapo(banjo, wayOn(banjo, 'B4 F#3 B3 D#4 F#4'), 440)).toBeNull();
});

test('courses that are left keep the pitches they are in; the others go where the tuning has them', () => {
  const way = wayOn(tenor, 'A4 D4 F#4 D5');
  const partly = leaving(way, [3], tenor.stringSet, 440);
  expect(partly.name).toBe('High without course 1');
  const here = tuningOn(tenor, partly, settings);
  expect(here?.pitches).toEqual([['A4'], ['D4'], ['F#4'], ['A4']]);
  for (const [course, strings] of (here?.hertz ?? []).entries())
    expect(strings[0]).toBeCloseTo((course === 3 ? way.from : way.to).hertz[course]?.[0] ?? Number.NaN, 6);
});

test('a string past what it can carry would break; one near it comes close', () => {
  const line = (number: number, breakShare: number) => ({ number, after: { newtons: 1, slackIn: 1, breakIn: 1, breakShare } });
  expect(breakTitle([line(3, 0.86), line(1, 0.9)])).toBe('Courses 3 and 1 come close to breaking');
  expect(breakTitle([line(1, 0.9)])).toBe('Course 1 comes close to breaking');
  expect(breakTitle([line(3, 0.9), line(1, 1.12)])).toBe('Course 1 would break');
});
