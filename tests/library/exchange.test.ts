import { describe, expect, test } from 'vitest';
import type { ImportPreview, ImportReceipt, Output } from '#shared/contract/index.ts';
import { readLibraryFile, writeLibraryFile } from '#shared/exchange/index.ts';
import { inventedTunings, noRows } from '../unit/exchange/rows.ts';
import {
  codeOf,
  evening,
  instrument,
  openService,
  reading,
  retune,
  saveWren,
  stringSet,
  temporaryFolder,
  tuning,
  turn,
  valueOf,
} from '../support/host.ts';
import type { Service } from '../../src-main/service/index.ts';

async function playWren(service: Service): Promise<void> {
  await saveWren(service);
  await valueOf(service, 'log.beginRetune', retune);
  await valueOf(service, 'log.append', { turns: [turn], readings: [reading] });
}

const save = async (service: Service, log = true): Promise<string> =>
  ((await valueOf(service, 'library.export', { log })) as Output<'library.export'>).text;
const look = async (service: Service, text: string): Promise<ImportPreview> =>
  (await valueOf(service, 'library.previewImport', { text })) as ImportPreview;
const take = async (service: Service, text: string, decisions: unknown = []): Promise<ImportReceipt> =>
  (await valueOf(service, 'library.import', { text, decisions })) as ImportReceipt;
const everything = async (service: Service): Promise<unknown> => [
  await valueOf(service, 'overview.read'),
  await valueOf(service, 'tunings.list'),
  await valueOf(service, 'songs.list'),
  await valueOf(service, 'log.read', { stringSetId: stringSet.id, retunes: 9 }),
];

describe('a library saved as a file', () => {
  test('and taken into an empty one is the same library', async () => {
    const first = await openService(await temporaryFolder());
    await playWren(first);
    const second = await openService(await temporaryFolder());
    const text = await save(first);
    expect(await look(second, text)).toMatchObject({ retunes: 1, readings: 1, rows: [{ standing: 'new' }, { standing: 'new' }] });
    await take(second, text);
    expect(await everything(second)).toEqual(await everything(first));
    expect(await save(second)).toBe(text);
  });

  test('has its log only where that is asked for, and nothing that was removed', async () => {
    const service = await openService(await temporaryFolder());
    await playWren(service);
    await valueOf(service, 'tunings.remove', { id: tuning.id });
    const read = readLibraryFile(await save(service, false));
    expect(read).toMatchObject({ file: { readings: [], retunes: [], tunings: [], instruments: [{ id: 'wren' }] } });
    await valueOf(service, 'instruments.remove', { id: 'wren' });
    expect(readLibraryFile(await save(service))).toMatchObject({ file: { instruments: [], stringSets: [], readings: [] } });
  });

  test('and taken in again by the same library changes nothing', async () => {
    const service = await openService(await temporaryFolder());
    await playWren(service);
    const [text, before] = [await save(service), await everything(service)];
    expect((await look(service, text)).rows.map(({ standing }) => standing)).toEqual(['same', 'same']);
    expect(await take(service, text)).toEqual({
      added: { instruments: [], tunings: [], songs: [] },
      before: { instruments: [], stringSets: [], tunings: [], songs: [] },
    });
    expect(await everything(service)).toEqual(before);
  });
});

describe('taking in a file', () => {
  const edited = (text: string): string => text.replace('"name":"Wren"', '"name":"Wren, older"').replace('3 down a semitone', 'One peg');

  test('keeps both by default, with a log each, and is undone as a whole', async () => {
    const service = await openService(await temporaryFolder());
    await playWren(service);
    const before = await everything(service);
    const receipt = await take(service, edited(await save(service)));
    expect(await valueOf(service, 'overview.read')).toMatchObject([
      { instrument: { name: 'Wren' }, lastReadings: [{ id: reading.id }] },
      { instrument: { name: 'Wren, older' }, lastReadings: [{ hertz: reading.hertz }] },
    ]);
    await valueOf(service, 'library.undoImport', receipt);
    expect(await everything(service)).toEqual(before);
  });

  test('replaces what it is told to, and the undoing brings back what was there', async () => {
    const service = await openService(await temporaryFolder());
    await playWren(service);
    const before = await everything(service);
    const decisions = [
      { part: 'instruments', id: 'wren', choice: 'replace' },
      { part: 'tunings', id: tuning.id, choice: 'replace' },
    ];
    const receipt = await take(service, edited(await save(service)), decisions);
    expect(await valueOf(service, 'overview.read')).toMatchObject([{ instrument: { id: 'wren', name: 'Wren, older' } }]);
    expect(await valueOf(service, 'tunings.list')).toMatchObject([{ id: tuning.id, name: 'One peg' }]);
    await valueOf(service, 'library.undoImport', receipt);
    expect(await everything(service)).toEqual(before);
  });

  test('leaves a tuning that is needed since when it is undone', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    const receipt = await take(service, writeLibraryFile({ ...noRows, tunings: [{ ...tuning, id: 'come', name: 'Come' }] }));
    await valueOf(service, 'instruments.save', { instrument: { ...instrument, tuningId: 'come' }, stringSet });
    await valueOf(service, 'library.undoImport', receipt);
    expect(await valueOf(service, 'tunings.list')).toMatchObject([{ id: tuning.id }, { id: 'come' }]);
  });

  test.each([
    ['of tomorrow', (text: string) => text.replace('"version":3', '"version":4')],
    ['with an id twice', () => writeLibraryFile({ ...noRows, tunings: [tuning, tuning] })],
    ['with a prototype key', (text: string) => text.replace('"frets":18', '"frets":18,"__proto__":{}')],
    ['cut off', (text: string) => text.slice(0, -9)],
  ])('that is %s is refused and leaves the library as it is', async (_name, spoil) => {
    const service = await openService(await temporaryFolder());
    await playWren(service);
    const before = await everything(service);
    const text = spoil(await save(service));
    expect(await codeOf(service, 'library.previewImport', { text })).toBe('bad-input');
    expect(await codeOf(service, 'library.import', { text, decisions: [] })).toBe('bad-input');
    expect(await everything(service)).toEqual(before);
  });

  test('refuses a decision that the row does not offer', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    const text = await save(service);
    const decisions = [{ part: 'tunings', id: tuning.id, choice: 'add' }];
    expect(await codeOf(service, 'library.import', { text, decisions })).toBe('bad-input');
  });

  test('takes 5 000 tunings in at once', async () => {
    const service = await openService(await temporaryFolder());
    await take(service, writeLibraryFile({ ...noRows, tunings: inventedTunings(5000, 3) }));
    expect(await valueOf(service, 'tunings.list')).toHaveLength(5000);
  });
});

test('readings go out as CSV in pages, whatever strings the instrument had on', async () => {
  const service = await openService(await temporaryFolder());
  await playWren(service);
  const many = Array.from({ length: 4500 }, (_, at) => ({ ...reading, id: `many-${at}`, at: evening + at * 1000 }));
  for (let from = 0; from < many.length; from += 900)
    await valueOf(service, 'log.append', { turns: [], readings: many.slice(from, from + 900) });
  const first = (await valueOf(service, 'log.csv', { instrumentId: 'wren', after: 0 })) as Output<'log.csv'>;
  const second = (await valueOf(service, 'log.csv', { instrumentId: 'wren', after: first.next })) as Output<'log.csv'>;
  expect([first.text.split('\r\n').length, second.text.split('\r\n').length, second.next]).toEqual([4002, 502, null]);
  expect(first.text.split('\r\n')[1]).toBe(`2026-11-25T20:00:08.000Z,Wren,${stringSet.name},3,1,246.8,246.942,-1,0.3,pluck`);
  expect(await codeOf(service, 'log.csv', { instrumentId: 'nobody', after: 0 })).toBe('not-found');
});

test('strings that were on before can be put on again, each with its own history', async () => {
  const service = await openService(await temporaryFolder());
  await playWren(service);
  const low = { ...stringSet, id: 'low', name: 'Low G', fittedAt: evening + 1 };
  await valueOf(service, 'instruments.save', { instrument: { ...instrument, stringSetId: 'low' }, stringSet: low });
  expect(await valueOf(service, 'instruments.stringSets', { id: 'wren' })).toEqual([
    { stringSet: low, lastHeardAt: null },
    { stringSet, lastHeardAt: reading.at },
  ]);
  expect(await valueOf(service, 'overview.read')).toMatchObject([{ stringSet: low, lastReadings: [] }]);
  await valueOf(service, 'instruments.save', { instrument, stringSet });
  expect(await valueOf(service, 'overview.read')).toMatchObject([{ stringSet, lastReadings: [reading] }]);
});
