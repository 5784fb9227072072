import { describe, expect, test } from 'vitest';
import type { Output } from '#shared/contract/index.ts';
import type { Reading } from '#shared/log/index.ts';
import { readLibraryFile } from '#shared/exchange/index.ts';
import type { Service } from '../../src-main/service/index.ts';
import {
  codeOf,
  evening,
  instrument,
  openService,
  reading,
  remarks,
  retune,
  saveWren,
  stringSet,
  temporaryFolder,
  turn,
  valueOf,
} from '../support/host.ts';

const minute = 60_000;
const [note] = remarks.notes;
const [change] = remarks.stringChanges;
const [correction] = remarks.corrections;

async function playedWren(folder?: string): Promise<Service> {
  const service = await openService(folder ?? (await temporaryFolder()));
  await saveWren(service);
  await valueOf(service, 'log.beginRetune', retune);
  await valueOf(service, 'log.append', { turns: [turn], readings: [reading] });
  return service;
}

const remarksOf = async (service: Service) => (await valueOf(service, 'log.remarks', { id: 'wren' })) as Output<'log.remarks'>;
const logOf = async (service: Service) =>
  (await valueOf(service, 'log.read', { stringSetId: stringSet.id, retunes: 5 })) as Output<'log.read'>;

describe('a note about an instrument', () => {
  test('stands until a later one replaces it, or takes it back with no words', async () => {
    const service = await playedWren();
    const words = async () => (await remarksOf(service)).notes.map((one) => one.words);
    await valueOf(service, 'log.append', { notes: [note] });
    await valueOf(service, 'log.append', { notes: [{ ...note, id: 'note-2', words: 'Sounds soft by the stove.', replaces: note!.id }] });
    expect(await words()).toEqual(['Sounds soft by the stove.']);
    await valueOf(service, 'log.append', { notes: [{ ...note, id: 'note-3', words: '', replaces: 'note-2' }] });
    expect(await words()).toEqual([]);
    expect(await codeOf(service, 'log.append', { notes: [{ ...note, id: 'note-4', instrumentId: 'nobody' }] })).toBe('not-found');
  });
});

describe('a reading marked as wrong', () => {
  test('does not count any more, stands apart, and comes back when it is right after all', async () => {
    const service = await playedWren();
    await valueOf(service, 'log.append', { corrections: [correction] });
    expect(await logOf(service)).toMatchObject({ readings: [], wrong: [reading] });
    expect(await valueOf(service, 'overview.read')).toMatchObject([{ lastReadings: [] }]);
    expect(await valueOf(service, 'log.csv', { instrumentId: 'wren', after: 0 })).toMatchObject({
      text: expect.not.stringContaining('246.8') as string,
    });
    await valueOf(service, 'log.append', { corrections: [{ ...correction, id: 'correction-2', at: correction!.at + 1, isWrong: false }] });
    expect(await logOf(service)).toMatchObject({ readings: [reading], wrong: [] });
  });
});

describe('one string changed by itself', () => {
  test('is another string from then on: the set knows what is on, and the others keep their history', async () => {
    const service = await playedWren();
    const other: Reading = { ...reading, id: 'other', course: 3 };
    await valueOf(service, 'log.append', { readings: [other] });
    const changed = { ...change, course: 1, at: evening + minute };
    for (const _ of [1, 2]) await valueOf(service, 'log.changeString', changed);
    const log = await logOf(service);
    expect([log.readings.map(({ id }) => id), log.turns, log.changes]).toEqual([['other'], [], [changed]]);
    const after: Reading = { ...reading, id: 'after', at: evening + 2 * minute };
    await valueOf(service, 'log.append', { readings: [after] });
    expect((await logOf(service)).readings.map(({ id }) => id)).toEqual(['other', 'after']);
    expect(await valueOf(service, 'overview.read')).toMatchObject([
      {
        lastReadings: [{ id: 'after' }, { id: 'other' }],
        stringSet: {
          id: stringSet.id,
          courses: [{}, { strings: [{ material: 'nylon', diameterMillimetres: 0.7, linearDensityKilogramsPerMetre: null }] }, {}, {}],
        },
      },
    ]);
    expect((await remarksOf(service)).changes).toEqual([changed]);
  });

  test('that the set lacks is refused with a sentence; an earlier change told later leaves what is on', async () => {
    const service = await playedWren();
    expect(await service.answer('log.changeString', { ...change, course: 4 })).toMatchObject({
      ok: false,
      failure: { code: 'bad-input', sentence: expect.stringContaining('no such string') as string },
    });
    await valueOf(service, 'log.changeString', change);
    await valueOf(service, 'log.changeString', { ...change, id: 'earlier', at: change!.at - minute, material: 'gut' });
    expect(await valueOf(service, 'overview.read')).toMatchObject([
      { stringSet: { courses: [{ strings: [{ material: 'nylon' }] }, {}, {}, {}] } },
    ]);
  });
});

describe('a string change that was noted by mistake', () => {
  const taken = (id: string, stringChangeId: string, at: number, isWrong = true) => ({
    changeCorrections: [{ id, stringChangeId, at, isWrong }],
  });
  const stringOn = async (service: Service) =>
    ((await valueOf(service, 'overview.read')) as Output<'overview.read'>)[0]?.stringSet.courses[1]?.strings[0];

  test('is taken back: the string has its figures and its history again, and the log has one row more', async () => {
    const service = await playedWren();
    const rated = { ...stringSet.courses[1]!.strings[0]!, linearDensityKilogramsPerMetre: 0.0007, ratedTensionNewtons: 70 };
    const courses = stringSet.courses.map((on, course) => (course === 1 ? { ...on, strings: [rated] } : on));
    await valueOf(service, 'instruments.save', { instrument, stringSet: { ...stringSet, courses } });
    const before = [await logOf(service), await remarksOf(service), await stringOn(service)];
    await valueOf(service, 'log.changeString', { ...change, course: 1, at: evening + minute });
    expect(await stringOn(service)).toMatchObject({ material: 'nylon', linearDensityKilogramsPerMetre: null });
    for (const _ of [1, 2]) await valueOf(service, 'log.append', taken('back', change!.id, evening + 2 * minute));
    expect([await logOf(service), await remarksOf(service), await stringOn(service)]).toEqual(before);
    await valueOf(service, 'log.append', taken('again', change!.id, evening + 3 * minute, false));
    expect([(await logOf(service)).readings, (await remarksOf(service)).changes.length]).toEqual([[], 1]);
    expect(await stringOn(service)).toMatchObject({ material: 'nylon', linearDensityKilogramsPerMetre: null });
  });

  test('under a later one leaves that one on; taken back too, it gives the string from before both', async () => {
    const service = await playedWren();
    const [first, second] = [
      { ...change!, id: 'first', course: 1, at: evening + minute },
      { ...change!, id: 'second', course: 1, at: evening + 2 * minute, material: 'gut' as const },
    ];
    const before = await stringOn(service);
    for (const one of [first, second]) await valueOf(service, 'log.changeString', one);
    await valueOf(service, 'log.append', taken('back-1', 'first', evening + 3 * minute));
    expect(await stringOn(service)).toMatchObject({ material: 'gut' });
    await valueOf(service, 'log.append', taken('back-2', 'second', evening + 4 * minute));
    expect(await stringOn(service)).toEqual(before);
  });

  test('has to be in the log', async () => {
    const service = await playedWren();
    expect(await codeOf(service, 'log.append', taken('back', 'nothing', evening))).toBe('not-found');
  });
});

describe('a reminder', () => {
  test('is put off until the latest moment that was said', async () => {
    const service = await playedWren();
    expect((await remarksOf(service)).snoozedUntil).toBeNull();
    const [snooze] = remarks.snoozes;
    await valueOf(service, 'log.append', { snoozes: [snooze, { ...snooze, id: 'later', at: snooze!.at + 1, until: evening + minute }] });
    expect((await remarksOf(service)).snoozedUntil).toBe(evening + minute);
  });
});

describe('everything that was said', () => {
  test('goes into a library file and comes out of it the same; kept beside what is there, it follows the copy', async () => {
    const first = await playedWren();
    const { stringChanges, ...appended } = remarks;
    await valueOf(first, 'log.changeString', stringChanges[0]);
    await valueOf(first, 'log.append', appended);
    const { text } = (await valueOf(first, 'library.export', { log: true })) as Output<'library.export'>;
    expect(readLibraryFile(text)).toMatchObject({ file: remarks });
    const second = await openService(await temporaryFolder());
    await valueOf(second, 'library.import', { text, decisions: [] });
    expect(await remarksOf(second)).toEqual(await remarksOf(first));
    expect(await logOf(second)).toEqual(await logOf(first));
    const edited = text.replace('"name":"Wren"', '"name":"Wren, older"');
    await valueOf(second, 'library.import', { text: edited, decisions: [] });
    const overview = (await valueOf(second, 'overview.read')) as Output<'overview.read'>;
    const copy = overview.find((one) => one.instrument.id !== instrument.id)!.instrument;
    const copied = (await valueOf(second, 'log.remarks', { id: copy.id })) as Output<'log.remarks'>;
    expect(copied.notes.map(({ id, words }) => [id === note!.id, words])).toEqual([[false, note!.words]]);
    expect([copied.changes.length, copied.warningsSeen.length, copied.snoozedUntil]).toEqual([1, 1, evening + 60 * minute]);
    expect(await valueOf(second, 'log.read', { stringSetId: copy.stringSetId, retunes: 5 })).toMatchObject({ readings: [], wrong: [{}] });
    expect(await remarksOf(second)).toEqual(await remarksOf(first));
  });
});
