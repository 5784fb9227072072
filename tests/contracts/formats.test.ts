import { describe, expect, test } from 'vitest';
import { formats } from '#shared/exchange/index.ts';
import { inventedTunings, noRows, wrenRows } from '../unit/exchange/rows.ts';

describe.each(formats.map((format) => [format.id, format] as const))('the format %s', (_, format) => {
  test('gives back what it wrote: Wren with her log, and 1 000 invented tunings for each of five seeds', () => {
    for (const content of [noRows, wrenRows, ...[1, 2, 3, 4, 5].map((seed) => ({ ...noRows, tunings: inventedTunings(1000, seed) }))])
      expect(format.read(format.write(content))).toEqual({ content });
  });

  test('refuses a newer version with a sentence that says both', () => {
    const newer = { ...(JSON.parse(format.write(noRows)) as object), version: format.version + 1, more: 'of tomorrow' };
    expect(format.read(JSON.stringify(newer))).toEqual({
      sentence: `This file was written by a newer Stillstring (format ${format.version + 1}); this one reads up to ${format.version}.`,
    });
  });

  test('refuses what is too large before it looks into it', () => {
    expect(format.read(' '.repeat(format.greatestLength + 1))).toMatchObject({ sentence: expect.stringContaining('too large') as string });
  });

  test.each([
    ['an empty file', ''],
    ['half a file', format.write(wrenRows).slice(0, 400)],
    ['a list', '[]'],
    ['null', 'null'],
    ['a nest of 200 000 lists', '['.repeat(200_000) + ']'.repeat(200_000)],
    ['a nest inside', format.write(noRows).replace('"tunings":[]', `"tunings":${'['.repeat(5000)}${']'.repeat(5000)}`)],
    ['NaN', format.write(wrenRows).replace('246.8', 'NaN')],
    ['a number out of range', format.write(wrenRows).replace('246.8', '1e999')],
    ['a wrong type', format.write(wrenRows).replace('"frets":18', '"frets":"18"')],
    ['an unknown member', format.write(wrenRows).replace('"frets":18', '"frets":18,"more":1')],
    ['a prototype key', format.write(wrenRows).replace('"frets":18', '"frets":18,"__proto__":{"polluted":1}')],
    ['a prototype key at the top', format.write(wrenRows).replace('"relativeTimes"', '"__proto__":{"polluted":1},"relativeTimes"')],
    ['an id that stands twice', format.write({ ...noRows, tunings: [...wrenRows.tunings, ...wrenRows.tunings] })],
    ['an instrument without strings', format.write({ ...wrenRows, stringSets: [] })],
    [
      'a reading of a string that is not there',
      format.write({ ...wrenRows, readings: wrenRows.readings.map((one) => ({ ...one, course: 9 })) }),
    ],
    ['a reading of a retune that is not there', format.write({ ...wrenRows, retunes: [], turns: [] })],
    ['a version that is no number', format.write(noRows).replace('"version":3', '"version":"2"')],
    ['a version that is none', format.write(noRows).replace('"version":3', '"version":0')],
  ])('refuses %s with a sentence', (_name, text) => {
    const read = format.read(text);
    expect(read).toEqual({ sentence: expect.stringMatching(/^[A-Z].{20,}$/su) });
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  test('takes names for names, whatever they look like', () => {
    const [tuning] = wrenRows.tunings;
    const tunings = ['../../etc/passwd', 'C:\\Windows\\x', '=1+1', '<b>x</b>', '__proto__', '\u202Eabc'].map((name, at) => ({
      ...tuning!,
      id: `${at}`,
      name,
    }));
    expect(format.read(format.write({ ...noRows, tunings }))).toEqual({ content: { ...noRows, tunings } });
  });
});

test('formats are named once', () => {
  expect(new Set(formats.map(({ id }) => id)).size).toBe(formats.length);
  expect(formats.length).toBeGreaterThan(0);
});
