import { describe, expect, test } from 'vitest';
import type { Output } from '#shared/contract/index.ts';
import type { Overview } from '#shared/contract/index.ts';
import type { LogRows, Reading } from '#shared/log/index.ts';
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
  tuning,
  turn,
  valueOf,
} from '../support/host.ts';

const minute = 60_000;
const at = (hour: number): number => evening + hour * 60 * minute;
const heard = (id: string, course: number, at: number): Reading => ({ ...reading, id, retuneId: null, course, at });

describe('a retune in the log', () => {
  test('is written, read back whole, and leaves the instrument in the tuning it was taken to', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    await valueOf(service, 'log.beginRetune', retune);
    await valueOf(service, 'log.append', { turns: [turn], readings: [reading] });
    await valueOf(service, 'log.finishRetune', { id: retune.id, finishedAt: evening + minute });
    const finished = { ...retune, finishedAt: evening + minute };
    expect(await valueOf(service, 'log.read', { stringSetId: stringSet.id, retunes: 5 })).toEqual({
      retunes: [finished],
      turns: [turn],
      readings: [reading],
      wrong: [],
      changes: [],
    });
    expect(await valueOf(service, 'overview.read')).toEqual([
      {
        instrument: { ...instrument, tuningId: tuning.id },
        stringSet,
        lastRetune: finished,
        lastReadings: [reading],
        turnedSinceHeard: [],
      },
    ]);
  });

  test('told twice is written once, as a page does after a lost connection', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    for (const _ of [1, 2]) {
      await valueOf(service, 'log.beginRetune', retune);
      await valueOf(service, 'log.append', { turns: [turn], readings: [reading] });
    }
    await valueOf(service, 'log.finishRetune', { id: retune.id, finishedAt: evening + minute });
    await valueOf(service, 'instruments.save', { instrument, stringSet });
    await valueOf(service, 'log.finishRetune', { id: retune.id, finishedAt: evening + 9 * minute });
    const log = (await valueOf(service, 'log.read', { stringSetId: stringSet.id, retunes: 5 })) as LogRows;
    expect(log).toMatchObject({ retunes: [{ ...retune, finishedAt: evening + minute }], turns: [turn], readings: [reading] });
    // What the player has set since then is not undone by the second telling.
    expect(await valueOf(service, 'overview.read')).toMatchObject([{ instrument: { tuningId: null } }]);
  });

  test('is appended all or nothing', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    await valueOf(service, 'log.beginRetune', retune);
    const stray = { ...reading, id: 'reading-2', stringSetId: 'nobody' };
    expect(await codeOf(service, 'log.append', { turns: [turn], readings: [reading, stray] })).toBe('not-found');
    expect(await valueOf(service, 'log.read', { stringSetId: stringSet.id, retunes: 5 })).toMatchObject({
      retunes: [retune],
      turns: [],
      readings: [],
    });
  });

  test.each([
    ['a reading of a fifth course', { readings: [reading, { ...reading, id: 'reading-2', course: 4 }] }],
    ['a reading of a second string', { readings: [{ ...reading, string: 1 }] }],
    ['a turn of a fifth peg', { turns: [{ ...turn, course: 4 }], readings: [reading] }],
    ['a warning about a second string', { warningsSeen: [{ ...remarks.warningsSeen[0], string: 1 }] }],
  ])('with %s that the string set lacks is refused with a sentence, and nothing is written', async (_what, rows) => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    await valueOf(service, 'log.beginRetune', retune);
    expect(await service.answer('log.append', rows)).toEqual({
      ok: false,
      failure: { code: 'bad-input', sentence: '“First set” has no such string: nothing was written.' },
    });
    expect(await valueOf(service, 'log.read', { stringSetId: stringSet.id, retunes: 5 })).toMatchObject({ turns: [], readings: [] });
  });

  test('of an unknown instrument, or one that never began, is refused', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    expect(await codeOf(service, 'log.beginRetune', { ...retune, instrumentId: 'nobody' })).toBe('not-found');
    expect(await codeOf(service, 'log.finishRetune', { id: 'never', finishedAt: evening })).toBe('not-found');
  });
});

describe('reading the log', () => {
  test('gives the last retunes and what was heard since the first of them, oldest first', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    for (const hour of [2, 0, 1]) {
      await valueOf(service, 'log.beginRetune', { ...retune, id: `retune-${hour}`, startedAt: at(hour) });
      const readings: Reading[] = [{ ...reading, id: `reading-${hour}`, retuneId: `retune-${hour}`, at: at(hour) + minute }];
      await valueOf(service, 'log.append', { turns: [], readings });
    }
    await valueOf(service, 'log.append', { turns: [], readings: [{ ...reading, id: 'before', retuneId: null, at: at(-1) }] });
    const ids = async (retunes: number): Promise<string[][]> => {
      const log = (await valueOf(service, 'log.read', { stringSetId: stringSet.id, retunes })) as LogRows;
      return [log.retunes.map(({ id }) => id), log.readings.map(({ id }) => id)];
    };
    expect(await ids(2)).toEqual([
      ['retune-1', 'retune-2'],
      ['reading-1', 'reading-2'],
    ]);
    expect(await ids(3)).toEqual([
      ['retune-0', 'retune-1', 'retune-2'],
      ['before', 'reading-0', 'reading-1', 'reading-2'],
    ]);
  });
});

describe('the overview', () => {
  test('tells how far a string was turned since it was last heard, until it is heard again', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    await valueOf(service, 'log.beginRetune', retune);
    await valueOf(service, 'log.append', { turns: [turn], readings: [reading] });
    const turned = async () => ((await valueOf(service, 'overview.read')) as Output<'overview.read'>)[0]?.turnedSinceHeard;
    expect(await turned()).toEqual([]);
    const { course, string } = turn;
    const later = { ...turn, id: 'later', at: reading.at + 1000, cents: -40 };
    await valueOf(service, 'log.append', { turns: [later, { ...later, id: 'latest', at: reading.at + 3000, cents: -60 }] });
    expect(await turned()).toEqual([{ course, string, cents: -100, at: reading.at + 3000 }]);
    await valueOf(service, 'log.append', { readings: [{ ...reading, id: 'again', at: reading.at + 3000 }] });
    expect(await turned()).toEqual([]);
  });

  test('shows the last reading of each string, and of the strings fitted now', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    const readings = [heard('a', 0, evening + 2), heard('b', 0, evening + 3), heard('c', 0, evening + 1), heard('d', 3, evening)];
    await valueOf(service, 'log.append', { turns: [], readings });
    const lastIds = async (): Promise<string[] | undefined> => {
      const [first] = (await valueOf(service, 'overview.read')) as Overview[];
      return first?.lastReadings.map(({ id }) => id);
    };
    expect(await lastIds()).toEqual(['b', 'd']);
    const newStrings = { ...stringSet, id: 'new-strings' };
    await valueOf(service, 'instruments.save', { instrument: { ...instrument, stringSetId: 'new-strings' }, stringSet: newStrings });
    expect(await lastIds()).toEqual([]);
    expect(await valueOf(service, 'log.read', { stringSetId: stringSet.id, retunes: 1 })).toMatchObject({ readings: { length: 4 } });
  });
});
