import { describe, expect, test } from 'vitest';
import { draftOf } from '../../../../src-renderer/screens/instruments/draft.ts';
import { stringEffect, totalEffect, totalWords } from '../../../../src-renderer/screens/instruments/gauge-effect.ts';
import { beyondWords, takenBy } from '../../../../src-renderer/screens/instruments/taken.ts';
import { pullAt, usualPull } from '../../../../src-renderer/stores/pull.ts';
import { instrumentOf, settings, tuningOf } from '../wren.ts';

const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
const home = 'G4 C4 E4 A4';

describe('a change of gauge', () => {
  const draft = draftOf(wren);
  const thicker = {
    ...draft,
    courses: draft.courses.map((strings, course) =>
      course === 3 ? strings.map((one) => ({ ...one, diameterMillimetres: '0.7' })) : strings,
    ),
  };

  test('shows at once what the string then pulls, which goes with the square of the diameter', () => {
    const before = pullAt(wren, 3, 0, 440).newtons!;
    const was = wren.stringSet.courses[3]!.strings[0]!.diameterMillimetres!;
    const [, from, to] = /^([\d.]+) → ([\d.]+) N at A4, slack in .+, break in/u.exec(stringEffect(wren, thicker, 3, 0, 440)) ?? [];
    expect(Number(from)).toBeCloseTo(before, 1);
    expect(Number(to) / Number(from)).toBeCloseTo((0.7 / was) ** 2, 2);
    expect(stringEffect(wren, draft, 3, 0, 440)).not.toContain('→');
  });

  test('says where a string would pull more than its maker rates it for', () => {
    const rated = (newtons: string) => ({
      ...draft,
      courses: draft.courses.map((strings) => strings.map((one) => ({ ...one, ratedNewtons: newtons }))),
    });
    expect(stringEffect(wren, rated('50'), 3, 0, 440)).toContain('more than its maker rates it for');
    expect(stringEffect(wren, rated('60'), 3, 0, 440)).not.toContain('maker');
  });

  test('says nothing while a line cannot be read, and the total neither', () => {
    const wrong = { ...draft, courses: [[{ ...draft.courses[0]![0]!, diameterMillimetres: 'thick' }], ...draft.courses.slice(1)] };
    expect([stringEffect(wren, wrong, 0, 0, 440), totalEffect(wren, wrong, 440)]).toEqual(['', '']);
    expect(totalEffect(wren, draft, 440)).toMatch(/^At home: \d+ N together, within the usual \d+ to \d+ N\.$/u);
  });

  test('is held against the usual range of as many strings', () => {
    const [least, most] = usualPull(wren.instrument)!.newtons;
    expect(totalWords(4 * least - 1, 4, wren.instrument)).toContain('less than the usual');
    expect(totalWords(4 * most + 1, 4, wren.instrument)).toContain('more than the usual');
  });
});

test('an instrument can take what leaves its strings a margin, the widest first; what goes past a limit is named apart', () => {
  const tunings = [
    tuningOf('Home', home, home),
    tuningOf('Up a fifth', 'D5 G4 B4 E5', home),
    tuningOf('Down a semitone', 'Gb4 B3 Eb4 Ab4', home),
    tuningOf('Drop D', 'D2 A2 D3 G3 B3 E4', 'E2 A2 D3 G3 B3 E4'),
  ];
  const { within, beyond, otherCourses } = takenBy(wren, tunings, settings);
  expect(within.map(({ name }) => name)).toEqual(['Down a semitone', 'Home']);
  expect(beyond.map(beyondWords)).toEqual(['Up a fifth (past the limit for breaking)']);
  expect(otherCourses).toBe(1);
});
