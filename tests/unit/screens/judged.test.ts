import { describe, expect, test } from 'vitest';
import { stateOf, tuningOn } from '../../../src-renderer/stores/strings.ts';
import { judgeTuning } from '../../../src-renderer/stores/judging.ts';
import { canTake, cautionLines, changeWords, gravest, leftWords, loadWords } from '../../../src-renderer/screens/judged.ts';
import { instrumentOf, settings, tuningOf } from './wren.ts';

const home = 'G4 C4 E4 A4';
const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
const judged = (pitches: string, overview = wren, writtenFor = home) => {
  const to = tuningOn(overview, tuningOf('Wanted', pitches, writtenFor), settings)!;
  return judgeTuning(overview, to, stateOf(overview, [], settings), settings);
};

describe('what a tuning asks, before a peg is touched', () => {
  test('each string tells how far it goes, what that does to its pull, and what is left on that side', () => {
    const { strings } = judged('G4 Bb3 E4 Bb4');
    expect(strings.map(changeWords)).toEqual([
      '',
      expect.stringMatching(/^down 2, \d+\.\d N less$/u),
      '',
      expect.stringMatching(/^up 1, \d+\.\d N more$/u),
    ]);
    expect(leftWords(strings[1]!)).toMatch(/^slack in /u);
    expect(leftWords(strings[3]!)).toMatch(/^break in /u);
  });

  test('a tone down is within every limit, and only the maker is deferred to', () => {
    const down = judged('F4 Bb3 D4 G4');
    expect(canTake(down)).toBe(true);
    expect(gravest(down, 4)).toBeNull();
    const lines = cautionLines(down, 4);
    expect(lines).toHaveLength(1);
    expect(lines[0]!.sentence).toMatch(/maker .* luthier\.$/u);
    expect(loadWords(down)).toBe('21 % less than at home');
  });

  test('an octave is another string, said of the course it is asked of and before anything else', () => {
    const octave = judged('G3 C4 E4 A4');
    expect(canTake(octave)).toBe(false);
    expect(gravest(octave, 4)).toBe('another string for 4');
    expect(cautionLines(octave, 4)[0]).toMatchObject({ who: '4', sentence: expect.stringContaining('Fit another string') });
  });

  test('what is tightened brings the caution about a string that breaks', () => {
    expect(cautionLines(judged('G4 C4 E4 Bb4'), 4).at(-1)!.sentence).toMatch(/face and eyes/u);
    expect(cautionLines(judged('G4 C4 E4 G4'), 4).at(-1)!.sentence).not.toMatch(/face and eyes/u);
  });

  test('a string that pulls more than its maker rates it for cannot take the tuning', () => {
    const rated = {
      ...wren,
      stringSet: {
        ...wren.stringSet,
        courses: wren.stringSet.courses.map((course) => ({
          ...course,
          strings: course.strings.map((string) => ({ ...string, ratedTensionNewtons: 58 })),
        })),
      },
    };
    const up = judged('G4 C4 E4 Bb4', rated);
    expect(gravest(up, 4)).toBe('1 beyond its rating');
    expect(canTake(up)).toBe(false);
    expect(canTake(judged('G4 C4 E4 G4', rated))).toBe(true);
  });
});
