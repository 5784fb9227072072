import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { sql } from 'kysely';
import { describe, expect, test } from 'vitest';
import type { LibraryFile } from '#shared/exchange/index.ts';
import type { LogRows } from '#shared/log/index.ts';
import { openLibrary } from '../../src-main/library/index.ts';
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

const hour = 3_600_000;

/** A demo library of one instrument, retuned an hour before it is loaded. */
const demo: LibraryFile = {
  format: 'stillstring-library',
  version: 3,
  relativeTimes: true,
  instruments: [{ ...instrument, id: 'demo-i', name: 'Finch', stringSetId: 'demo-s', tuningId: 'demo-t' }],
  stringSets: [{ ...stringSet, id: 'demo-s', instrumentId: 'demo-i', fittedAt: 24 * hour }],
  tunings: [{ ...tuning, id: 'demo-t' }],
  songs: [{ id: 'demo-song', title: 'A song of ours', key: 'F', tuningId: 'demo-t', instrumentId: 'demo-i' }],
  retunes: [
    {
      ...retune,
      id: 'demo-r',
      instrumentId: 'demo-i',
      stringSetId: 'demo-s',
      toTuningId: 'demo-t',
      startedAt: hour,
      finishedAt: hour - 60_000,
    },
  ],
  turns: [{ ...turn, id: 'demo-turn', retuneId: 'demo-r', at: hour - 1000 }],
  readings: [{ ...reading, id: 'demo-reading', stringSetId: 'demo-s', retuneId: 'demo-r', at: hour - 2000 }],
  notes: [{ id: 'demo-note', instrumentId: 'demo-i', at: hour, words: 'Kept by the window.', replaces: null }],
  stringChanges: [],
  warningsSeen: [{ id: 'demo-seen', stringSetId: 'demo-s', at: hour, course: 1, string: 0, kind: 'slips' }],
  snoozes: [],
  corrections: [],
  changeCorrections: [],
};

async function folderWithDemoFile(): Promise<{ folder: string; demoFile: string }> {
  const folder = await temporaryFolder();
  const demoFile = join(folder, 'demo.json');
  await writeFile(demoFile, JSON.stringify(demo));
  return { folder, demoFile };
}

async function rowCounts(folder: string): Promise<Record<string, number>> {
  const library = await openLibrary(folder, () => evening);
  const counts: Record<string, number> = {};
  for (const table of ['instruments', 'stringSets', 'tunings', 'songs', 'retunes', 'retuneStrings', 'turns', 'readings']) {
    const found = await sql.raw<{ count: number }>(`SELECT count(*) AS count FROM ${table}`).execute(library.rows);
    counts[table] = found.rows[0]?.count ?? -1;
  }
  await library.close();
  return counts;
}

describe('the demo library', () => {
  test('comes with its times counted back from this evening', async () => {
    const { folder, demoFile } = await folderWithDemoFile();
    const service = await openService(folder, { demoFile });
    await valueOf(service, 'demo.load');
    expect(await valueOf(service, 'library.status')).toMatchObject({ demo: true });
    expect(await valueOf(service, 'songs.list')).toEqual(demo.songs);
    expect(await valueOf(service, 'overview.read')).toMatchObject([{ stringSet: { fittedAt: evening - 24 * hour } }]);
    const log = (await valueOf(service, 'log.read', { stringSetId: 'demo-s', retunes: 3 })) as LogRows;
    expect([log.retunes[0]?.startedAt, log.retunes[0]?.finishedAt, log.turns[0]?.at, log.readings[0]?.at]).toEqual([
      evening - hour,
      evening - hour + 60_000,
      evening - hour + 1000,
      evening - hour + 2000,
    ]);
  });

  test('is not loaded twice', async () => {
    const { folder, demoFile } = await folderWithDemoFile();
    const service = await openService(folder, { demoFile });
    await valueOf(service, 'demo.load');
    expect(await codeOf(service, 'demo.load')).toBe('already-there');
  });

  test('is loaded by itself at a demo start, once', async () => {
    const { folder, demoFile } = await folderWithDemoFile();
    for (const _ of [1, 2]) {
      const service = await openService(folder, { demoFile, startWithDemo: true });
      expect(await valueOf(service, 'overview.read')).toMatchObject([{ instrument: { name: 'Finch' } }]);
      await service.close();
    }
  });

  test('goes out again and takes nothing of the player’s with it', async () => {
    const { folder, demoFile } = await folderWithDemoFile();
    const service = await openService(folder, { demoFile });
    await saveWren(service);
    await valueOf(service, 'log.beginRetune', retune);
    await valueOf(service, 'log.append', { turns: [turn], readings: [reading] });
    await valueOf(service, 'demo.load');
    await valueOf(service, 'demo.remove');
    expect(await valueOf(service, 'library.status')).toMatchObject({ demo: false });
    expect(await valueOf(service, 'overview.read')).toMatchObject([{ instrument: { name: 'Wren' }, lastReadings: [reading] }]);
    await service.close();
    expect(await rowCounts(folder)).toEqual({
      instruments: 1,
      stringSets: 1,
      tunings: 1,
      songs: 0,
      retunes: 1,
      retuneStrings: 4,
      turns: 1,
      readings: 1,
    });
  });

  test('goes out with what was said of it by the way; an instrument that the player wrote a note about stays', async () => {
    const { folder, demoFile } = await folderWithDemoFile();
    const service = await openService(folder, { demoFile });
    await valueOf(service, 'demo.load');
    await valueOf(service, 'log.append', {
      snoozes: [{ ...remarks.snoozes[0], stringSetId: 'demo-s' }],
      warningsSeen: [{ ...remarks.warningsSeen[0], stringSetId: 'demo-s' }],
      corrections: [{ ...remarks.corrections[0], readingId: 'demo-reading' }],
    });
    await valueOf(service, 'demo.remove');
    expect(await valueOf(service, 'overview.read')).toEqual([]);
    await valueOf(service, 'demo.load');
    await valueOf(service, 'log.append', { notes: [{ ...remarks.notes[0], instrumentId: 'demo-i' }] });
    await valueOf(service, 'demo.remove');
    expect(await valueOf(service, 'log.remarks', { id: 'demo-i' })).toMatchObject({
      notes: [{ id: remarks.notes[0]!.id }],
      warningsSeen: [],
    });
  });

  test('leaves what the player has used meanwhile, with what it needs', async () => {
    const { folder, demoFile } = await folderWithDemoFile();
    const service = await openService(folder, { demoFile });
    await valueOf(service, 'demo.load');
    await valueOf(service, 'log.beginRetune', { ...retune, instrumentId: 'demo-i', stringSetId: 'demo-s', toTuningId: 'demo-t' });
    await valueOf(service, 'demo.remove');
    expect(await valueOf(service, 'library.status')).toMatchObject({ demo: false });
    expect(await valueOf(service, 'overview.read')).toMatchObject([{ instrument: { name: 'Finch' }, lastReadings: [] }]);
    const renamed = { ...demo.instruments[0], name: 'Mine now' };
    await valueOf(service, 'instruments.save', { instrument: renamed, stringSet: demo.stringSets[0] });
    await valueOf(service, 'demo.load');
    expect(await valueOf(service, 'overview.read')).toMatchObject([
      { instrument: { name: 'Mine now' }, lastReadings: [{ id: 'demo-reading' }] },
    ]);
    await valueOf(service, 'demo.remove');
    await service.close();
    expect(await rowCounts(folder)).toEqual({
      instruments: 1,
      stringSets: 1,
      tunings: 1,
      songs: 0,
      retunes: 1,
      retuneStrings: 4,
      turns: 0,
      readings: 0,
    });
  });

  test('that is absent or damaged is refused with a sentence, and nothing is changed', async () => {
    const { folder, demoFile } = await folderWithDemoFile();
    const service = await openService(folder, { demoFile });
    await writeFile(demoFile, JSON.stringify({ ...demo, readings: [{ ...reading, id: 'x', stringSetId: 'nobody' }] }));
    expect(await codeOf(service, 'demo.load')).toBe('bad-input');
    await writeFile(demoFile, '{}');
    expect(await codeOf(service, 'demo.load')).toBe('bad-input');
    expect(await valueOf(service, 'overview.read')).toEqual([]);
    expect(await valueOf(service, 'tunings.list')).toEqual([]);
  });
});
