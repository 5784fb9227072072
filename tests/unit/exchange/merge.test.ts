import { describe, expect, test } from 'vitest';
import { type LibraryRows, merge, type MergeDecision, mergePreview, type Present } from '#shared/exchange/index.ts';
import { instrument, reading, stringSet, tuning } from '../../support/wren.ts';
import { inventedTunings, noRows, wrenRows } from './rows.ts';

const nobody: ReadonlySet<string> = new Set();
const present = (rows: LibraryRows, removed = nobody): Present => ({ ...rows, removed });
const counter = (): (() => string) => {
  let next = 0;
  return () => `fresh-${(next += 1)}`;
};
const merged = (library: LibraryRows, file: LibraryRows, decisions: readonly MergeDecision[] = [], removed = nobody) =>
  merge(present(library, removed), file, decisions, counter());

describe('a file before it is taken in', () => {
  test('is all new to an empty library', () => {
    expect(mergePreview(present(noRows), wrenRows).map(({ part, standing, choices }) => [part, standing, choices[0]])).toEqual([
      ['instruments', 'new', 'add'],
      ['tunings', 'new', 'add'],
      ['songs', 'new', 'add'],
    ]);
  });

  test('that the library has already asks for nothing', () => {
    expect(mergePreview(present(wrenRows), wrenRows).map(({ standing }) => standing)).toEqual(['same', 'same', 'same']);
    expect(merged(wrenRows, wrenRows)).toMatchObject({
      rows: { instruments: [], stringSets: [], tunings: [], songs: [] },
      added: { instruments: [], tunings: [], songs: [] },
    });
  });

  test('is known by its content, whatever its ids; a favourite and the order of tags are no difference', () => {
    const twin = { ...tuning, id: 'elsewhere', favourite: false, tags: tuning.tags.toReversed() };
    expect(mergePreview(present(wrenRows), { ...noRows, tunings: [twin] })).toEqual([
      { part: 'tunings', id: 'elsewhere', name: tuning.name, standing: 'same', present: { id: tuning.id, name: tuning.name }, choices: [] },
    ]);
  });

  test('says what differs, and keeps both unless told otherwise', () => {
    const renamed = { ...noRows, tunings: [{ ...tuning, name: 'One peg' }] };
    expect(mergePreview(present(wrenRows), renamed)).toMatchObject([
      { standing: 'differs', present: { name: tuning.name }, choices: ['keep-both', 'replace', 'leave'] },
    ]);
    expect(merged(wrenRows, renamed).rows.tunings).toEqual([{ ...tuning, name: 'One peg', id: 'fresh-1' }]);
    const replace = merged(wrenRows, renamed, [{ part: 'tunings', id: tuning.id, choice: 'replace' }]);
    expect([replace.rows.tunings[0]?.id, replace.replaced.tunings]).toEqual([tuning.id, [tuning.id]]);
    expect(merged(wrenRows, renamed, [{ part: 'tunings', id: tuning.id, choice: 'leave' }]).rows.tunings).toEqual([]);
  });

  test('never offers to replace strings by others than the log names', () => {
    const fewer = {
      ...wrenRows,
      stringSets: [{ ...stringSet, courses: stringSet.courses.slice(2) }],
      retunes: [],
      turns: [],
      readings: [],
    };
    expect(mergePreview(present(wrenRows), fewer)[0]?.choices).toEqual(['keep-both', 'leave']);
    expect(() => merged(wrenRows, fewer, [{ part: 'instruments', id: 'wren', choice: 'replace' }])).toThrow('not among the choices');
  });
});

describe('an instrument kept beside another of the same id', () => {
  const longer = { ...wrenRows, instruments: [{ ...instrument, name: 'Wren the second' }] };
  const { rows } = merged(wrenRows, longer);

  test('gets new ids for itself, its strings and its log, and everything that names it follows', () => {
    const [copy] = rows.instruments;
    const [set] = rows.stringSets;
    expect(copy?.id).toMatch(/^fresh/);
    expect(set).toMatchObject({ instrumentId: copy?.id, id: copy?.stringSetId });
    expect(rows.retunes).toMatchObject([{ instrumentId: copy?.id, stringSetId: set?.id, toTuningId: tuning.id }]);
    expect(rows.turns).toMatchObject([{ retuneId: rows.retunes[0]?.id, cents: -104.5 }]);
    expect(rows.readings).toMatchObject([{ stringSetId: set?.id, retuneId: rows.retunes[0]?.id, hertz: reading.hertz }]);
    const ids = [...rows.instruments, ...rows.stringSets, ...rows.retunes, ...rows.turns, ...rows.readings].map(({ id }) => id);
    expect(new Set(ids).size).toBe(5);
    expect(ids.every((id) => id.startsWith('fresh'))).toBe(true);
  });

  test('is not taken in a second time', () => {
    const after: LibraryRows = {
      ...wrenRows,
      instruments: [...wrenRows.instruments, ...rows.instruments],
      stringSets: [...wrenRows.stringSets, ...rows.stringSets],
      songs: [...wrenRows.songs, ...rows.songs],
    };
    const again = merge(present(after), longer, [], () => {
      throw new Error('nothing needs a new id');
    });
    expect([again.rows.instruments, again.rows.stringSets, again.rows.songs]).toEqual([[], [], []]);
    expect(again.rows.readings).toEqual([{ ...reading, stringSetId: rows.stringSets[0]?.id }]);
  });
});

test('what is left out is named by nothing that comes in', () => {
  const decisions: MergeDecision[] = [
    { part: 'tunings', id: tuning.id, choice: 'leave' },
    { part: 'instruments', id: instrument.id, choice: 'leave' },
  ];
  const { rows } = merged(noRows, wrenRows, decisions);
  expect(rows).toEqual({ ...noRows, songs: [{ ...wrenRows.songs[0], tuningId: null, instrumentId: null }] });
});

test('an instrument that was removed comes back under its own id, its log not doubled', () => {
  const { rows, added } = merged(wrenRows, wrenRows, [], new Set([instrument.id]));
  expect(added.instruments).toEqual([instrument.id]);
  expect(rows.readings).toEqual([reading]);
});

test('whatever is chosen, no row of the library is written but those to be replaced', () => {
  const library = { ...noRows, tunings: inventedTunings(60, 7) };
  const file = {
    ...noRows,
    tunings: [...library.tunings.map((one, at) => (at % 3 === 0 ? { ...one, notes: `${one.notes}!` } : one)), ...inventedTunings(40, 8)],
  };
  for (const choice of ['keep-both', 'replace', 'leave'] as const) {
    const decisions = mergePreview(present(library), file).flatMap(({ part, id, standing }) =>
      standing === 'differs' ? [{ part, id, choice }] : [],
    );
    const { rows, added, replaced } = merged(library, file, decisions);
    const ids = new Set(library.tunings.map(({ id }) => id));
    expect(rows.tunings.filter(({ id }) => ids.has(id)).map(({ id }) => id)).toEqual(replaced.tunings);
    expect([added.tunings.length, replaced.tunings.length]).toEqual([choice === 'keep-both' ? 60 : 40, choice === 'replace' ? 20 : 0]);
  }
});
