import { describe, expect, test } from 'vitest';
import { readLibraryFile } from '#shared/exchange/index.ts';
import { noRows, wrenRows } from './rows.ts';

const empty = { format: 'stillstring-library', version: 2, relativeTimes: false, ...noRows };

describe('a library file', () => {
  test('that is whole is read', () => {
    expect(readLibraryFile(JSON.stringify(empty))).toEqual({ file: empty });
  });

  test('of version 1, which knew of nothing but retunes, turns and readings, is read with all that it has', () => {
    const { notes, stringChanges, warningsSeen, snoozes, corrections, ...older } = wrenRows;
    expect([notes, stringChanges, warningsSeen, snoozes, corrections].map((rows) => rows.length)).toEqual([1, 1, 1, 1, 1]);
    const read = readLibraryFile(JSON.stringify({ format: empty.format, version: 1, relativeTimes: false, ...older }));
    expect(read).toEqual({ file: { ...empty, ...older } });
  });

  test.each([
    ['', 'not JSON'],
    ['{}', 'not a Stillstring library file'],
    [JSON.stringify({ ...empty, version: 3 }), 'newer Stillstring (format 3); this one reads up to 2'],
    [JSON.stringify({ ...empty, tunings: [{ id: 'x' }] }), 'damaged at tunings.0'],
  ])('that is not is refused with a sentence', (text, sentence) => {
    expect(readLibraryFile(text)).toMatchObject({ sentence: expect.stringContaining(sentence) as string });
  });
});
