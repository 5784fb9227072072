import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { openLibrary } from '../../../src-main/library/index.ts';
import type { LibraryRows } from '#shared/exchange/index.ts';
import type { Retune } from '#shared/log/index.ts';
import { inventedTunings, noRows } from '../../unit/exchange/rows.ts';
import { evening, instrument, reading, retune, stringSet } from '../../support/wren.ts';

/** How much a library holds. Every instrument has one string set of four courses, heard alike often. */
export type Size = { readonly instruments: number; readonly tunings: number; readonly readings: number };

const seed = 1125;
const minute = 60_000;
const retunesEach = 20;

const syllables = ['ba', 'ke', 'lo', 'mi', 'nu', 'ra', 'se', 'to', 'vi', 'zu'] as const;
/** A name that no other number has: `invented(499)` → `Bazuzuba`; each letter typed leaves fewer. */
const invented = (number: number): string => {
  const [first = '', ...rest] = [3, 2, 1, 0].map((place) => syllables[Math.floor(number / 10 ** place) % 10]).join('');
  return first.toUpperCase() + rest.join('');
};

/** Ids as long as the app's own, and as scattered for what is appended. */
const long = (id: string): string => id.padEnd(36, '.');
const scattered = (at: number): string => long(`${(Math.imul(at, 2_654_435_761) >>> 0).toString(16).padStart(8, '0')} ${at}`);

/** The id of the string set of an instrument, which are counted from 0. */
export const setId = (number: number): string => long(`set-${number}`);

/** Instruments with their strings, and tunings of four to six courses; no log. */
export const manyThings = ({ instruments, tunings }: Omit<Size, 'readings'>): LibraryRows => {
  const numbers = Array.from({ length: instruments }, (_, at) => at);
  return {
    ...noRows,
    instruments: numbers.map((at) => ({ ...instrument, id: `instrument-${at}`, name: `Instrument ${at}`, stringSetId: setId(at) })),
    stringSets: numbers.map((at) => ({ ...stringSet, id: setId(at), instrumentId: `instrument-${at}` })),
    tunings: inventedTunings(tunings, seed).map((tuning, at) => ({ ...tuning, name: invented(at) })),
  };
};

/** A string goes flat by so much for every tenfold time since a retune. */
const creepCents = -1.5;

/** Readings of all string sets in turn, a minute apart, the last one at `evening`; each creeps from retune to retune. The same ones every time. */
export function* manyReadings({ instruments, readings }: Omit<Size, 'tunings'>): Generator<LibraryRows['readings'][number]> {
  const random = xoroshiro128plus(seed);
  const retuneEvery = Math.floor(readings / retunesEach);
  for (let at = 0; at < readings; at += 1) {
    const minutesSinceRetune = (at % retuneEvery) + 1;
    const deviationCents = creepCents * Math.log10(minutesSinceRetune) + uniformInt(random, -10, 10) / 10;
    yield {
      ...reading,
      id: scattered(at),
      stringSetId: setId(at % instruments),
      retuneId: null,
      at: evening - (readings - at) * minute,
      course: Math.floor(at / instruments) % 4,
      hertz: reading.wantedHertz * 2 ** (deviationCents / 1200),
      deviationCents,
    };
  }
}

const insert = (file: DatabaseSync, table: string, columns: readonly string[]): ((row: Readonly<Record<string, unknown>>) => void) => {
  const statement = file.prepare(`INSERT INTO ${table} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`);
  const value = (one: unknown): string | number | null => {
    if (typeof one === 'boolean') return Number(one);
    return one === null || typeof one === 'string' || typeof one === 'number' ? one : JSON.stringify(one);
  };
  return (row) => void statement.run(...columns.map((column) => value(row[column])));
};

/** Makes a library of this size in a folder, row by row with SQL; through the service it would take the best part of an hour. */
export async function makeLibrary(folder: string, size: Size): Promise<void> {
  await (await openLibrary(folder, () => evening)).close();
  const file = new DatabaseSync(join(folder, 'library.sqlite'));
  file.exec('PRAGMA synchronous = OFF; BEGIN');
  const put = (table: string, rows: Iterable<object>): void => {
    let add: ReturnType<typeof insert> | null = null;
    for (const row of rows) {
      const owned: Record<string, unknown> = { ...row, origin: 'player' };
      add ??= insert(file, table, Object.keys(owned));
      add(owned);
    }
  };
  const things = manyThings(size);
  put('tunings', things.tunings);
  put('instruments', things.instruments);
  put('stringSets', things.stringSets);
  put('retunes', retunesOf(size));
  const wanted = insert(file, 'retuneStrings', ['retuneId', 'course', 'string', 'wantedHertz']);
  for (const { id } of retunesOf(size))
    retune.wantedHertz.forEach(([wantedHertz], course) => wanted({ retuneId: id, course, string: 0, wantedHertz }));
  put('readings', manyReadings(size));
  file.exec('COMMIT');
  file.close();
}

function* retunesOf({ instruments, readings }: Size): Generator<Omit<Retune, 'wantedHertz'>> {
  const { wantedHertz: _wanted, ...row } = retune;
  for (let at = 0; at < instruments * retunesEach; at += 1) {
    const startedAt = evening - Math.floor((readings * minute * (instruments * retunesEach - at)) / (instruments * retunesEach));
    const number = at % instruments;
    const of = { instrumentId: `instrument-${number}`, stringSetId: setId(number), toTuningId: null };
    yield { ...row, ...of, id: `retune-${at}`, startedAt, finishedAt: startedAt + 5 * minute };
  }
}
