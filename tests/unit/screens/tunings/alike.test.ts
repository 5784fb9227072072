import { describe, expect, test } from 'vitest';
import { alike } from '../../../../src-renderer/screens/tunings/alike.ts';
import { carriedTo } from '../../../../src-renderer/screens/tunings/carried.ts';
import { tuningRows } from '../../../../src-renderer/screens/tunings/tuning-rows.ts';
import { instrumentOf, settings, tuningOf } from '../wren.ts';

const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
const finch = instrumentOf('ukulele-tenor-low-g', 'Finch');
const moth = instrumentOf('ukulele-baritone', 'Moth');
const rook = instrumentOf('guitar-classical', 'Rook');
const home = 'G4 C4 E4 A4';
const openC = tuningOf('Open C', 'G4 C4 E4 G4', home);

describe('tunings that sound alike', () => {
  const baritoneOpenG = tuningOf('Low open G', 'D3 G3 B3 D4', 'D3 G3 B3 E4');
  const respelled = tuningOf('Respelled', 'G4 C4 E4 Abb4', home);
  const offset = tuningOf('A little low', 'G4 C4 E4 G4', home, {
    courses: openC.courses.map((course) => ({ ...course, offsetCents: -4 })),
  });
  const found = alike(tuningRows(wren, [openC, baritoneOpenG, respelled, offset, tuningOf('Home', home, home)], settings));

  test('are found whatever home they were written for and however they are spelled', () => {
    expect(found.get('open c')).toEqual(['Low open G', 'Respelled']);
    expect(found.get('low open g')).toEqual(['Open C', 'Respelled']);
  });

  test('are not those with offsets of their own, nor a tuning and itself', () => {
    expect([found.has('a little low'), found.has('home')]).toEqual([false, false]);
  });
});

test('a tuning is carried to every instrument with as many courses, by its moves', () => {
  const there = carriedTo(openC, [finch, moth, rook], settings);
  expect(there.map(({ name, to, chord, stringing }) => [name, to.pitches.flat().join(' '), chord, stringing])).toEqual([
    ['Finch', 'G3 C4 E4 G4', 'C major', 'linear'],
    ['Moth', 'D3 G3 B3 D4', 'G major', 'linear'],
  ]);
  expect(there.every(({ to }) => to.sameShapes)).toBe(true);
});
