import {
  assert,
  array,
  boolean,
  constant,
  constantFrom,
  integer,
  type Arbitrary,
  property,
  record,
  string,
  tuple,
  uniqueArray,
} from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type LibraryRows, merge, mergePreview, readLibraryFile, writeLibraryFile } from '#shared/exchange/index.ts';
import { parsePitch, type SpelledPitch } from '#shared/music/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { noRows, wrenRows } from './rows.ts';

const seed = 20_261_125;

/** Every letter with every sign that a pitch can carry, double ones too, in the octaves that strings are tuned to. */
const pitch: Arbitrary<SpelledPitch> = tuple(
  constantFrom('C', 'D', 'E', 'F', 'G', 'A', 'B'),
  constantFrom('', 'b', '#', 'bb', '##'),
  integer({ min: 0, max: 6 }),
).map(
  ([letter, sign, octave]) =>
    parsePitch(`${letter}${sign}${octave}`) ??
    (() => {
      throw new RangeError('not a pitch');
    })(),
);

/** What a player may write: any text, without the blanks at its ends that a form takes off. */
const words = (most: number): Arbitrary<string> =>
  string({ unit: 'binary', minLength: 1, maxLength: most / 2 })
    .map((text) => text.trim())
    .filter((text) => text !== '');

const courses = array(integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 12 });

const tuning: Arbitrary<Tuning> = courses.chain((strings) =>
  record({
    id: string({ unit: 'binary', minLength: 1, maxLength: 32 }),
    name: words(80),
    courses: tuple(
      ...strings.map((count) =>
        record({
          pitches: array(pitch, { minLength: count, maxLength: count }),
          offsetCents: integer({ min: -500, max: 500 }).map((tenth) => tenth / 10 + 0),
        }),
      ),
    ),
    home: tuple(...strings.map((count) => array(pitch, { minLength: count, maxLength: count }))),
    favourite: boolean(),
    tags: array(words(40), { maxLength: 4 }),
    notes: string({ unit: 'binary', maxLength: 60 }),
  }),
);

const library = (least: number, most: number): Arbitrary<LibraryRows> =>
  uniqueArray(tuning, { selector: ({ id }) => id, minLength: least, maxLength: most, size: 'max' }).chain((tunings) =>
    array(
      record({
        title: words(120),
        key: constantFrom(null, 'C', 'E♭ minor'),
        tuningId: constantFrom(null, 'gone', ...tunings.slice(0, 9).map(({ id }) => id)),
        instrumentId: constant(null),
      }),
      { maxLength: 8 },
    ).map((songs) => ({
      ...noRows,
      tunings,
      songs: songs.map((song, at) => ({ ...song, id: `the song at ${at}, longer than any id above` })),
    })),
  );

const read = (text: string): LibraryRows => {
  const answer = readLibraryFile(text);
  if ('sentence' in answer) throw new Error(answer.sentence);
  const { format: _format, version: _version, relativeTimes: _relativeTimes, ...rows } = answer.file;
  return rows;
};

const never = (): string => {
  throw new Error('nothing needs a new id');
};

describe('a library written and read again', () => {
  test('is the same to the letter, spelling and all, for libraries of up to 1 000 tunings', () => {
    const spelled = new Set<string>();
    assert(
      property(library(0, 1000), (rows) => {
        for (const { home } of rows.tunings) for (const one of home.flat()) spelled.add(one);
        expect(read(writeLibraryFile(rows))).toEqual(rows);
      }),
      { seed, numRuns: 6 },
    );
    expect(spelled.size).toBe(7 * 5 * 7);
  });

  test('is the same with 1 000 tunings and an instrument with its log beside them', () => {
    assert(
      property(library(1000, 1000), ({ tunings }) => {
        const rows = { ...wrenRows, tunings: [...wrenRows.tunings, ...tunings] };
        expect(read(writeLibraryFile(rows))).toEqual(rows);
      }),
      { seed, numRuns: 2 },
    );
  });

  test('is written alike from then on', () => {
    assert(
      property(library(0, 60), (rows) => {
        const text = writeLibraryFile(read(writeLibraryFile(rows)));
        expect(writeLibraryFile(read(text))).toBe(text);
      }),
      { seed, numRuns: 40 },
    );
  });
});

describe('a library taken in', () => {
  test('by an empty one becomes the same library', () => {
    assert(
      property(library(0, 60), (rows) => {
        const merged = merge({ ...noRows, removed: new Set() }, rows, [], never);
        const ids = new Set(rows.tunings.map(({ id }) => id));
        const songs = rows.songs.map((song) => ({
          ...song,
          tuningId: song.tuningId !== null && ids.has(song.tuningId) ? song.tuningId : null,
        }));
        expect(merged.rows).toEqual({ ...rows, songs });
      }),
      { seed, numRuns: 40 },
    );
  });

  test('by itself changes nothing', () => {
    assert(
      property(library(0, 60), (rows) => {
        expect(mergePreview({ ...rows, removed: new Set() }, rows).filter(({ standing }) => standing !== 'same')).toEqual([]);
        expect(merge({ ...rows, removed: new Set() }, rows, [], never).rows).toEqual(noRows);
      }),
      { seed, numRuns: 40 },
    );
  });
});
