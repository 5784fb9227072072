import { describe, expect, test } from 'vitest';
import { type Move, movesBetween } from '#shared/tunings/index.ts';
import { moveCount, moveWords, takersOf, takerWords, tuningRows } from '../../../../src-renderer/screens/tunings/tuning-rows.ts';
import { instrumentOf, readingOf, settings, tuningOf } from '../wren.ts';

const home = 'G4 C4 E4 A4';
const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
const lantern = tuningOf('Lantern E♭', 'G4 Bb3 Eb4 Bb4', home);
const dropD = tuningOf('Drop D', 'D2 A2 D3 G3 B3 E4', 'E2 A2 D3 G3 B3 E4');
const said = (moves: readonly Move[]): string =>
  moveWords(moves)
    .map(({ who, words }) => `${who} ${words}`)
    .join(', ');
const hereOf = (tuning: typeof lantern, overview = wren) => {
  const here = tuningRows(overview, [tuning], settings)[0]?.here ?? null;
  if (here === null) throw new Error(`${tuning.name} does not fit`);
  return here;
};

describe('a tuning as it is on the instrument in hand', () => {
  test('moves are told by course, loosening first, the largest first', () => {
    const { moves, chord, stringing } = hereOf(lantern);
    expect(said(moves)).toBe('3 down 2, 2 down 1, 1 up 1');
    expect(moveCount(moves)).toBe(3);
    expect(chord).toBe('E♭ major');
    expect(stringing).toBe('re-entrant');
  });

  test('where every course does the same it is said once', () => {
    expect(said(hereOf(tuningOf('Ash', 'F4 Bb3 D4 G4', home)).moves)).toBe('all 4 down 2');
  });

  test('an instrument that was never retuned is at home: that asks for nothing', () => {
    const here = hereOf(tuningOf('Home', home, home));
    expect(said(here.moves)).toBe('');
    expect(here.isHere).toBe(true);
    expect(hereOf(lantern).isHere).toBe(false);
  });

  test('an instrument in a tuning is there, not in another with the same pitches', () => {
    const there = { ...wren, instrument: { ...wren.instrument, tuningId: lantern.id } };
    const copy = { ...lantern, id: 'copy' };
    expect(tuningRows(there, [lantern, copy], settings).map(({ here }) => here?.isHere)).toEqual([true, false]);
  });

  test('on a baritone it is carried by its moves', () => {
    const { to } = hereOf(lantern, instrumentOf('ukulele-baritone-high-d', 'Sedge'));
    expect(to.pitches.flat()).toEqual(['D4', 'F3', 'Bb3', 'F4']);
    expect(to.sameShapes).toBe(true);
  });

  test('an instrument with other courses cannot take it', () => {
    expect(tuningRows(wren, [dropD], settings)[0]?.here).toBeNull();
  });

  test('rows stay what they are while instrument, library and settings do, and are worked out anew when one changes', () => {
    const tunings = [lantern, dropD];
    const rows = tuningRows(wren, tunings, settings);
    expect(tuningRows(wren, tunings, settings)).toBe(rows);
    expect(tuningRows(wren, [lantern, dropD], settings)).not.toBe(rows);
    const lower = tuningRows(wren, tunings, { ...settings, referenceHertz: 430 });
    expect(lower[0]?.here?.to.hertz[3]?.[0]).toBeLessThan(rows[0]?.here?.to.hertz[3]?.[0] ?? 0);
    const flat = { ...wren, lastReadings: [readingOf(3, 430, 440, 1)] };
    expect(tuningRows(flat, tunings, settings)[0]?.here?.away).not.toEqual(rows[0]?.here?.away);
  });

  test('beads stand where the strings were heard, not where they should be', () => {
    const flatA = { ...wren, lastReadings: [readingOf(3, 440 * 2 ** (-0.5 / 12), 440, 1)] };
    const away = hereOf(lantern, flatA).away.flat();
    expect(away[0]).toBeCloseTo(0, 9);
    expect(away[1]).toBeCloseTo(2, 9);
    expect(away[3]).toBeCloseTo(-1.5, 9);
  });

  test('the worst margin is the same at any reference pitch as the pull makes it', () => {
    const low = tuningRows(wren, [lantern], { ...settings, referenceHertz: 400 })[0]?.here?.margin;
    expect(hereOf(lantern).margin).toMatch(/^break in/u);
    expect(low).toMatch(/in \d/u);
    expect(low).not.toBe(hereOf(lantern).margin);
  });

  test('the other instruments are told by chord and margin, or by why not', () => {
    const others = [
      instrumentOf('ukulele-baritone', 'Moth'),
      instrumentOf('guitar-classical', 'Rook'),
      instrumentOf('guitar-classical', 'Heron'),
    ];
    const { takes, cannot } = takersOf(lantern, others, settings);
    expect(takes).toHaveLength(1);
    expect(takes.map(takerWords)).toEqual([expect.stringMatching(/^Moth as B♭ major, (?:slack|break) in/u)]);
    expect(cannot).toEqual([{ courses: 6, names: ['Rook', 'Heron'] }]);
  });

  test('a move within a course of two is counted once', () => {
    const moves = movesBetween([['A4', 'A4']] as never, [['G4', 'G4']] as never);
    expect(said(moves)).toBe('1 down 2');
  });
});
