import { describe, expect, test } from 'vitest';
import { readLibraryFile } from '#shared/exchange/index.ts';

const empty = {
  format: 'stillstring-library',
  version: 1,
  relativeTimes: false,
  instruments: [],
  stringSets: [],
  tunings: [],
  songs: [],
  retunes: [],
  turns: [],
  readings: [],
};

describe('a library file', () => {
  test('that is whole is read', () => {
    expect(readLibraryFile(JSON.stringify(empty))).toEqual({ file: empty });
  });

  test.each([
    ['', 'not JSON'],
    ['{}', 'not a Stillstring library file'],
    [JSON.stringify({ ...empty, version: 2 }), 'newer Stillstring (format 2); this one reads up to 1'],
    [JSON.stringify({ ...empty, tunings: [{ id: 'x' }] }), 'damaged at tunings.0'],
  ])('that is not is refused with a sentence', (text, sentence) => {
    expect(readLibraryFile(text)).toMatchObject({ sentence: expect.stringContaining(sentence) as string });
  });
});
