import { describe, expect, test } from 'vitest';
import type { Reply } from '#shared/contract/index.ts';
import { type LibraryRows, readLibraryFile, writeLibraryFile } from '#shared/exchange/index.ts';
import type { Service } from '../../src-main/service/index.ts';
import { inventedTunings, noRows, wrenRows } from '../unit/exchange/rows.ts';
import { instrument, openService, reading, retune, saveWren, stringSet, temporaryFolder, tuning, turn, valueOf } from '../support/host.ts';
import { everyRow } from '../support/library-rows.ts';

const whole = writeLibraryFile(wrenRows);
const million = 1_000_000;

/** A file that says what no type would let through. */
const file = (rows: object, head: object = {}): string =>
  JSON.stringify({ format: 'stillstring-library', version: 3, relativeTimes: false, ...noRows, ...rows, ...head });

/** A second instrument on strings of its own, with an empty log. */
const finch = {
  instruments: [{ ...instrument, id: 'finch', name: 'Finch', stringSetId: 'finch-strings' }],
  stringSets: [{ ...stringSet, id: 'finch-strings', instrumentId: 'finch' }],
};

async function openWren(folder: string): Promise<Service> {
  const service = await openService(folder);
  await saveWren(service);
  await valueOf(service, 'log.beginRetune', retune);
  await valueOf(service, 'log.append', { turns: [turn], readings: [reading] });
  return service;
}

const offer = async (service: Service, text: string): Promise<readonly Reply[]> => [
  await service.answer('library.previewImport', { text }),
  await service.answer('library.import', { text, decisions: [] }),
];

describe('a hostile file is refused with a sentence, and every row of the library stays as it was:', () => {
  test.each<[string, () => string]>([
    ['too long by one character', () => whole.padEnd(32 * 1024 * 1024 + 1)],
    ['a nest of two million lists', () => '['.repeat(2 * million) + ']'.repeat(2 * million)],
    [
      'a nest of 500 000 objects for tunings',
      () => file({}, { tunings: 0 }).replace(':0}', `:${'{"a":'.repeat(500_000)}1${'}'.repeat(500_001)}`),
    ],
    ['half a million empty readings', () => file({ readings: Array.from({ length: million / 2 }, () => ({})) })],
    ['a name of 10 MB', () => file({ tunings: [{ ...tuning, name: 'x'.repeat(10 * million) }] })],
    ['a pitch of 10 MB', () => file({ tunings: [{ ...tuning, home: [['b'.repeat(10 * million)]] }] })],
    ['a member called by 10 MB', () => file({ ['k'.repeat(10 * million)]: 1 })],
    ['100 000 members that nobody knows', () => file(Object.fromEntries(Array.from({ length: 100_000 }, (_, at) => [`key ${at}`, at])))],
    ['tunings that are an object', () => file({ tunings: { length: 1, 0: tuning } })],
    ['a tuning that is null', () => file({ tunings: [null] })],
    ['an id that is a list', () => file({ tunings: [{ ...tuning, id: ['three-down'] }] })],
    ['a length that is a text', () => whole.replace('"frets":18', '"frets":"18"')],
    ['NaN', () => whole.replace('246.8', 'NaN')],
    ['NaN as a text', () => whole.replace('246.8', '"NaN"')],
    ['Infinity', () => whole.replace('246.8', '-Infinity')],
    ['a number beyond all numbers', () => whole.replace('246.8', '1e400')],
    ['half a fret', () => whole.replace('"frets":18', '"frets":18.5')],
    ['a tuning twice', () => file({ tunings: [tuning, { ...tuning, name: 'Another' }] })],
    ['a reading twice', () => file({ ...wrenRows, readings: [reading, reading] })],
    ['an instrument and a tuning of one id', () => file({ ...finch, tunings: [{ ...tuning, id: 'finch' }] })],
    ['ids that are half a character', () => file({ tunings: ['\uD800', '\uD801'].map((id) => ({ ...tuning, id })) })],
    ['__proto__ in a row', () => whole.replace('"frets":18', '"frets":18,"__proto__":{"polluted":1}')],
    ['constructor in a row', () => whole.replace('"frets":18', '"frets":18,"constructor":{"prototype":{"polluted":1}}')],
    ['toString in the head', () => whole.replace('"version"', '"toString":1,"version"')],
    ['rows that only a prototype has', () => `{"__proto__":${whole}}`],
    ['a version of tomorrow', () => whole.replace('"version":3', '"version":4')],
    ['a version between two', () => whole.replace('"version":3', '"version":1.5')],
    ['two versions', () => whole.replace('"version":3', '"version":3,"version":99')],
    ['another program’s format', () => whole.replace('stillstring-library', 'stillstring-readings')],
    ['cut off in the middle', () => whole.slice(0, whole.length / 2)],
    ['cut off at its last bracket', () => whole.slice(0, -1)],
    ['two files in one', () => whole + whole],
    ['a byte order mark', () => `\uFEFF${whole}`],
    ['UTF-16 taken for UTF-8', () => Buffer.from(whole, 'utf16le').toString('utf8')],
    ['UTF-8 taken for UTF-16', () => Buffer.from(whole, 'utf8').toString('utf16le')],
    ['bytes of a picture', () => Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex').toString('latin1')],
    ['strings that are not in it', () => file({ instruments: finch.instruments })],
    ['strings of another’s', () => file({ ...finch, stringSets: [{ ...finch.stringSets[0], instrumentId: 'wren' }] })],
    ['a retune of strings that are not in it', () => file({ ...finch, retunes: [retune] })],
    ['a turn of a retune that is not in it', () => file({ ...finch, turns: [turn] })],
    ['a reading of a retune that is not in it', () => file({ ...finch, readings: [{ ...reading, stringSetId: 'finch-strings' }] })],
    [
      'a time before the first',
      () => file({ ...finch, stringSets: [{ ...finch.stringSets[0], fittedAt: 9e15 }] }, { relativeTimes: true }),
    ],
    ['a time after the last', () => file({ ...finch, readings: [{ ...reading, retuneId: null, stringSetId: 'finch-strings', at: 9e15 }] })],
  ])('%s', async (_, text) => {
    const folder = await temporaryFolder();
    const service = await openWren(folder);
    await service.close();
    const before = everyRow(folder);
    const again = await openService(folder);
    const replies = await offer(again, text());
    await again.close();
    for (const reply of replies) {
      expect(reply).toMatchObject({
        ok: false,
        failure: { code: 'bad-input', sentence: expect.stringMatching(/^[A-Z].{20,300}$/su) as string },
      });
    }
    expect(before['readings']).toHaveLength(1);
    expect(everyRow(folder)).toEqual(before);
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
  });
});

describe('an odd file is taken in, and the library still works:', () => {
  const names = [
    '../../etc/passwd',
    'C:\\x\\..\\y',
    '/dev/null',
    'con',
    '%00',
    'a\u0000b',
    "'; DROP TABLE tunings; --",
    '\u202Egpj',
    '\uD83E',
  ];
  const keys = ['__proto__', 'constructor', 'toString', '../x', 'null', '0', "' OR 1"];
  test.each<[string, Partial<LibraryRows>, object]>([
    [
      'names like paths and statements',
      { tunings: names.map((name, at) => ({ ...tuning, id: `odd ${at}`, name, notes: name, tags: [name] })) },
      {},
    ],
    ['ids like keys of a prototype', { tunings: keys.map((id) => ({ ...tuning, id, name: `Odd ${id}` })) }, {}],
    [
      'an instrument and strings called __proto__',
      {
        instruments: [{ ...instrument, id: '__proto__', name: 'Odd', stringSetId: 'constructor' }],
        stringSets: [{ ...stringSet, id: 'constructor', instrumentId: '__proto__' }],
      },
      {},
    ],
    [
      'a song and an instrument that stand in tunings that are not there',
      { ...finch, songs: [{ id: 's', title: 'x', key: null, tuningId: 'gone', instrumentId: 'gone' }] },
      {},
    ],
    ['relative times', finch, { relativeTimes: true }],
  ])('%s', async (_, rows, head) => {
    const service = await openWren(await temporaryFolder());
    const replies = await offer(service, file(rows, head));
    expect(replies.map(({ ok }) => ok)).toEqual([true, true]);
    const { text } = (await valueOf(service, 'library.export', { log: true })) as { readonly text: string };
    const read = readLibraryFile(text);
    expect(read).toMatchObject({
      file: {
        tunings: { length: 1 + (rows.tunings?.length ?? 0) },
        instruments: { length: 1 + (rows.instruments?.length ?? 0) },
        readings: [reading],
      },
    });
    expect(await valueOf(service, 'overview.read')).toHaveLength(1 + (rows.instruments?.length ?? 0));
  });

  test('a member that stands twice counts as it stands last', async () => {
    const service = await openWren(await temporaryFolder());
    const text = file({ tunings: [{ ...tuning, id: 'twice' }] }).replace('"name":', '"name":"First","name":');
    await valueOf(service, 'library.import', { text, decisions: [] });
    expect(await valueOf(service, 'tunings.list')).toHaveLength(1);
  });
});

describe('the log of the library', () => {
  test('gets nothing from a file whose retune has the id of one on other strings', async () => {
    const service = await openWren(await temporaryFolder());
    const before = await valueOf(service, 'log.read', { stringSetId: stringSet.id, retunes: 9 });
    const text = file({
      ...finch,
      retunes: [{ ...retune, instrumentId: 'finch', stringSetId: 'finch-strings' }],
      turns: [{ ...turn, id: 'turn-2', cents: 500 }],
      readings: [{ ...reading, id: 'reading-2', stringSetId: 'finch-strings' }],
    });
    await valueOf(service, 'library.import', { text, decisions: [] });
    expect(await valueOf(service, 'log.read', { stringSetId: stringSet.id, retunes: 9 })).toEqual(before);
    const { text: saved } = (await valueOf(service, 'library.export', { log: true })) as { readonly text: string };
    expect(readLibraryFile(saved)).toMatchObject({ file: { turns: [turn], readings: [reading] } });
  });

  test('keeps its places: strings that were on before are not replaced by fewer', async () => {
    const service = await openWren(await temporaryFolder());
    const low = { ...stringSet, id: 'low', name: 'Low G', fittedAt: stringSet.fittedAt + 1 };
    await valueOf(service, 'instruments.save', { instrument: { ...instrument, stringSetId: 'low' }, stringSet: low });
    const fewer = { ...stringSet, courses: stringSet.courses.slice(0, 1) };
    const text = file({ instruments: [{ ...instrument, name: 'Wren, older', stringSetId: 'low' }], stringSets: [low, fewer] });
    const decisions = [{ part: 'instruments', id: 'wren', choice: 'replace' }];
    expect(await service.answer('library.import', { text, decisions })).toMatchObject({ ok: false, failure: { code: 'bad-input' } });
    expect(await valueOf(service, 'instruments.stringSets', { id: 'wren' })).toMatchObject([{ stringSet: low }, { stringSet }]);
  });

  test('goes out whole where one string set has 33 000 retunes', async () => {
    const service = await openWren(await temporaryFolder());
    const on = { instrumentId: 'finch', stringSetId: 'finch-strings', wantedHertz: [[440]] };
    const retunes = Array.from({ length: 33_000 }, (_, at) => ({ ...retune, ...on, id: `retune of finch ${at}`, startedAt: at }));
    await valueOf(service, 'library.import', { text: file({ ...finch, retunes }), decisions: [] });
    const { text } = (await valueOf(service, 'library.export', { log: true })) as { readonly text: string };
    expect(readLibraryFile(text)).toMatchObject({ file: { retunes: { length: 33_001 } } });
  });
});

test('a tuning that is removed takes no instrument of the same id out of the file', async () => {
  const service = await openService(await temporaryFolder());
  const named = { instrument: { ...instrument, id: tuning.id }, stringSet: { ...stringSet, instrumentId: tuning.id } };
  await valueOf(service, 'tunings.save', tuning);
  await valueOf(service, 'instruments.save', named);
  await valueOf(service, 'tunings.remove', { id: tuning.id });
  const { text } = (await valueOf(service, 'library.export', { log: true })) as { readonly text: string };
  expect(readLibraryFile(text)).toMatchObject({ file: { instruments: [{ id: tuning.id }], tunings: [] } });
});

test('a library of 1 000 instruments and 5 000 tunings goes out and comes in again', async () => {
  const service = await openService(await temporaryFolder());
  const many = Array.from({ length: 1000 }, (_, at) => at);
  const rows = {
    instruments: many.map((at) => ({ ...instrument, id: `one ${at}`, name: `One ${at}`, stringSetId: `set ${at}` })),
    stringSets: many.map((at) => ({ ...stringSet, id: `set ${at}`, instrumentId: `one ${at}` })),
    tunings: inventedTunings(5000, 11),
  };
  await valueOf(service, 'library.import', { text: file(rows), decisions: [] });
  const { text } = (await valueOf(service, 'library.export', { log: false })) as { readonly text: string };
  expect(readLibraryFile(text)).toMatchObject({ file: { instruments: { length: 1000 }, tunings: { length: 5000 } } });
});
