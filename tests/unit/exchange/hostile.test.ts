import { anything, assert, constantFrom, integer, json, property, string, tuple } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { greatestRows, readLibraryFile, writeLibraryFile } from '#shared/exchange/index.ts';
import { tuning } from '../../support/wren.ts';
import { noRows, wrenRows } from './rows.ts';

const seed = 20_261_125;
const whole = writeLibraryFile(wrenRows);

/** What became of a text: never an error, and a refusal is one short sentence. */
function become(text: string): 'read' | 'refused' {
  const answer = readLibraryFile(text);
  if (!('sentence' in answer)) return 'read';
  expect(answer.sentence).toMatch(/^[A-Z].{20,300}$/su);
  return 'refused';
}

describe('whatever a file is, it is read or refused with a sentence:', () => {
  test('any text', () => {
    assert(
      property(string({ unit: 'binary', maxLength: 400 }), (text) => {
        expect(become(text)).toBe('refused');
      }),
      { seed, numRuns: 300 },
    );
  });

  test('any JSON', () => {
    assert(
      property(json({ maxDepth: 6 }), (text) => {
        expect(become(text)).toBe('refused');
      }),
      { seed, numRuns: 300 },
    );
  });

  test('a file with any value in place of one of its rows', () => {
    const part = constantFrom(...(Object.keys(greatestRows) as (keyof typeof greatestRows)[]));
    assert(
      property(tuple(part, anything({ maxDepth: 4 })), ([name, value]) => {
        let text: string;
        try {
          text = JSON.stringify({ ...JSON.parse(whole), [name]: [value] });
        } catch {
          return;
        }
        expect(become(text)).toBe('refused');
      }),
      { seed, numRuns: 300 },
    );
  });

  test('a file that lost any stretch of itself', () => {
    const cut = integer({ min: 0, max: whole.length - 1 });
    const outcomes = new Set<string>();
    assert(
      property(tuple(cut, integer({ min: 1, max: 60 })), ([from, count]) => {
        outcomes.add(become(whole.slice(0, from) + whole.slice(from + count)));
      }),
      { seed, numRuns: 1500 },
    );
    expect(outcomes).toContain('refused');
  });
});

test('a file that is refused says the first row that breaks a rule, and where', () => {
  const tunings = [tuning, { ...tuning, id: 'b', notes: 7 }, { ...tuning, id: 'c', notes: 8 }];
  const text = JSON.stringify({ ...JSON.parse(writeLibraryFile(noRows)), tunings });
  expect(readLibraryFile(text)).toEqual({
    sentence: 'This library file is damaged at tunings.1.notes: Invalid input: expected string, received number',
  });
});

test('no file is written that would not be read for its rows', () => {
  const songs = Array.from({ length: greatestRows.songs + 1 }, (_, at) => ({
    id: `${at}`,
    title: 'x',
    key: null,
    tuningId: null,
    instrumentId: null,
  }));
  expect(() => writeLibraryFile({ ...noRows, songs })).toThrow('at most 20000 songs, not 20001');
  expect('file' in readLibraryFile(writeLibraryFile({ ...noRows, songs: songs.slice(1) }))).toBe(true);
});
