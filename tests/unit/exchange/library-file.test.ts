import { describe, expect, test } from 'vitest';
import { readLibraryFile } from '#shared/exchange/index.ts';
import { noRows, wrenRows } from './rows.ts';

const empty = { format: 'stillstring-library', version: 3, relativeTimes: false, ...noRows };

/** Wren as the versions before 3 wrote her, and as this one has her then. */
const instruments = wrenRows.instruments.map(({ pegs: _pegs, bridge: _bridge, pegsHavePlay: _play, ...older }) => older);
const unsaid = instruments.map((older) => ({ ...older, pegs: null, bridge: null, pegsHavePlay: false }));

describe('a library file', () => {
  test('that is whole is read', () => {
    expect(readLibraryFile(JSON.stringify(empty))).toEqual({ file: empty });
  });

  test('of version 1, which knew of nothing but retunes, turns and readings, is read with all that it has', () => {
    const { notes, stringChanges, warningsSeen, snoozes, corrections, changeCorrections: _none, ...older } = { ...wrenRows, instruments };
    expect([notes, stringChanges, warningsSeen, snoozes, corrections].map((rows) => rows.length)).toEqual([1, 1, 1, 1, 1]);
    const read = readLibraryFile(JSON.stringify({ format: empty.format, version: 1, relativeTimes: false, ...older }));
    expect(read).toEqual({ file: { ...empty, ...older, instruments: unsaid } });
  });

  test('of version 2, which did not know how strings are held, is read as not said; no string change was taken back', () => {
    const { changeCorrections: _none, ...older } = { ...wrenRows, instruments };
    const read = readLibraryFile(JSON.stringify({ format: empty.format, version: 2, relativeTimes: false, ...older }));
    expect(read).toEqual({ file: { ...empty, ...older, instruments: unsaid } });
  });

  test.each(['Wren', [null, 3, []], [['Wren']], { 0: {} }])('of version 2 with %o for its instruments is refused', (broken) => {
    const text = JSON.stringify({ ...empty, version: 2, instruments: broken, changeCorrections: undefined });
    expect(readLibraryFile(text)).toMatchObject({ sentence: expect.stringContaining('damaged at instruments') as string });
  });

  test.each([
    ['', 'not JSON'],
    ['{}', 'not a Stillstring library file'],
    [JSON.stringify({ ...empty, version: 4 }), 'newer Stillstring (format 4); this one reads up to 3'],
    [JSON.stringify({ ...empty, tunings: [{ id: 'x' }] }), 'damaged at tunings.0'],
  ])('that is not is refused with a sentence', (text, sentence) => {
    expect(readLibraryFile(text)).toMatchObject({ sentence: expect.stringContaining(sentence) as string });
  });
});
