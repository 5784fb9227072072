import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { fileName, type NamedReading, readingsCsv, tuningSheet, writeLibraryFile } from '#shared/exchange/index.ts';
import { hertzOf, open } from '../../support/pitches.ts';
import { noRows } from './rows.ts';
import { tuning } from '../../support/wren.ts';

const named: NamedReading = {
  time: '2026-11-25T20:00:08.000Z',
  instrument: 'Wren',
  strings: 'Low G, “wound”',
  courseNumber: 3,
  stringNumber: 1,
  hertz: 246.8,
  wantedHertz: 246.942,
  deviationCents: -0.996,
  sigmaCents: 0.3,
  source: 'pluck',
};

describe('readings as CSV', () => {
  test('come back as they were, a line each, with names over the first page only', () => {
    const { data } = Papa.parse<string[]>(readingsCsv([named], true) + readingsCsv([named, named], false), { skipEmptyLines: true });
    expect(data[0]).toEqual([
      'time (UTC)',
      'instrument',
      'strings',
      'course',
      'string',
      'heard (Hz)',
      'wanted (Hz)',
      'off (cents)',
      'uncertainty (cents)',
      'source',
    ]);
    expect(data.slice(1)).toEqual(
      Array.from({ length: 3 }, () => [
        '2026-11-25T20:00:08.000Z',
        'Wren',
        'Low G, “wound”',
        '3',
        '1',
        '246.8',
        '246.942',
        '-1',
        '0.3',
        'pluck',
      ]),
    );
    expect(readingsCsv([], false)).toBe('');
  });

  test.each(['=1+1', '+1', '-2', '@sum', '\t=1', '\r=1'])('take the formula out of a name like %j', (instrument) => {
    const { data } = Papa.parse<string[]>(readingsCsv([{ ...named, instrument }], false));
    expect(data[0]?.[1]).toBe(`'${instrument}`);
  });

  test('leave a negative number a number', () => {
    expect(readingsCsv([named], false)).toContain(',-1,');
  });
});

test.each([
  ['Wren', 'csv', 'wren.csv'],
  ['../../etc/passwd', 'json', 'etc-passwd.json'],
  ['Lantern E♭', 'json', 'lantern-e-flat.json'],
  ['CON: “*?” \u0000', 'csv', 'con.csv'],
  ['…', 'csv', 'stillstring.csv'],
])('a file for %j is called without anything that could be a path', (words, ending, name) => {
  expect(fileName(words, ending)).toBe(name);
});

test('a library that is too large for a file is not written', () => {
  const tunings = Array.from({ length: 17_000 }, (_, at) => ({ ...tuning, id: `${at}`, notes: 'x'.repeat(2000) }));
  expect(() => writeLibraryFile({ ...noRows, tunings })).toThrow(RangeError);
});

test('a tuning sheet says what each course does from home', () => {
  const [home, pitches] = [open('G4 C4 E4 A4'), open('G4 Bb3 Eb4 Bb4')];
  const sheet = tuningSheet(home, pitches, hertzOf('G4 Bb3 Eb4 Bb4'), [0, -4, 0, 0]);
  expect([sheet.chord, sheet.stringing]).toEqual(['E♭ major', 're-entrant']);
  expect(sheet.lines.map(({ number, semitones, offsetCents }) => [number, semitones, offsetCents])).toEqual([
    [4, 0, 0],
    [3, -2, -4],
    [2, -1, 0],
    [1, 1, 0],
  ]);
});
