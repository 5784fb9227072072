import { describe, expect, test } from 'vitest';
import {
  everything,
  favourites,
  foundRows,
  type Order,
  plainText,
  searchTexts,
  siftOptions,
  sortedRows,
  takeable,
  twice,
} from '../../../../src-renderer/screens/tunings/sieve.ts';
import { tuningRows } from '../../../../src-renderer/screens/tunings/tuning-rows.ts';
import { instrumentOf, settings, tuningOf } from '../wren.ts';

const home = 'G4 C4 E4 A4';
const tunings = [
  tuningOf('Two herons', 'G4 D4 G4 B4', home, { tags: ['open'] }),
  tuningOf('Cold hearth', 'G4 C4 Eb4 G4', home, { tags: ['open', 'winter set'] }),
  tuningOf('Home', home, home, { favourite: true }),
  tuningOf('Drop D', 'D2 A2 D3 G3 B3 E4', 'E2 A2 D3 G3 B3 E4'),
  tuningOf('Candle end', 'G4 C4 Eb4 A4', home),
];
const songs = [{ id: 's', title: 'Salt on the Sill', key: null, tuningId: 'two herons', instrumentId: null }];
const rows = tuningRows(instrumentOf('ukulele-tenor-high-g', 'Wren'), tunings, settings);
type Wanted = { query?: string; sift?: string; order?: Order; repeated?: ReadonlySet<string> };
const nothing: ReadonlySet<string> = new Set();
const lastUsed = new Map([
  ['two herons', 2000],
  ['candle end', 1000],
]);
const names = ({ query = '', sift = everything, order = 'moves', repeated = nothing }: Wanted) =>
  foundRows(sortedRows(rows, order, lastUsed), searchTexts(songs), { query, sift, repeated }).map(({ tuning }) => tuning.name);

describe('the library of tunings', () => {
  test('fewest moves come first, then fewest semitones; what cannot be taken comes last', () => {
    expect(names({})).toEqual(['Home', 'Candle end', 'Cold hearth', 'Two herons', 'Drop D']);
  });

  test('or by name', () => {
    expect(names({ order: 'name' })).toEqual(['Candle end', 'Cold hearth', 'Drop D', 'Home', 'Two herons']);
  });

  test('it is searched by name, pitch, chord and song, however the flat is typed', () => {
    expect(names({ query: 'heron' })).toEqual(['Two herons']);
    expect(names({ query: 'c minor' })).toEqual(['Cold hearth']);
    for (const query of ['Eb4', 'E♭4', 'e flat4', 'E flat']) expect(names({ query })).toEqual(['Candle end', 'Cold hearth']);
    expect(names({ query: 'on the sill' })).toEqual(['Two herons']);
    expect(names({ query: 'xylophone' })).toEqual([]);
  });

  test('it is sifted by favourites and by tags, the tag used most first', () => {
    expect(names({ sift: favourites })).toEqual(['Home']);
    expect(names({ sift: 'tag winter set' })).toEqual(['Cold hearth']);
    const words = (repeated: ReadonlySet<string>) => siftOptions(rows, { instrument: 'Wren', repeated }).map((option) => option.words);
    expect(words(nothing)).toEqual(['All 5', 'Favourites', 'Wren can take', 'Open', 'Winter set']);
    expect(words(new Set(['home']))).toContain('Here twice');
  });

  test('by what the instrument can take, and by what stands there twice', () => {
    const octave = tuningOf('Octave', 'G3 C4 E4 A4', home);
    const all = tuningRows(instrumentOf('ukulele-tenor-high-g', 'Wren'), [...tunings, octave], settings);
    const taken = foundRows(all, searchTexts(songs), { query: '', sift: takeable, repeated: nothing }).map(({ tuning }) => tuning.name);
    expect(taken).toEqual(['Two herons', 'Cold hearth', 'Home', 'Candle end']);
    expect(names({ sift: twice, repeated: new Set(['home']) })).toEqual(['Home']);
  });

  test('the one that was used last comes first; those never used follow by their moves', () => {
    expect(names({ order: 'used' })).toEqual(['Two herons', 'Candle end', 'Home', 'Cold hearth', 'Drop D']);
  });

  test('“flat” inside a word stays a word', () => {
    expect(plainText('Flat land')).toBe('flat land');
    expect(plainText('B flat')).toBe('bb');
    expect(plainText('F♯ minor')).toBe('f# minor');
  });
});
