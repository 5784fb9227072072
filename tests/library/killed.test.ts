import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { sql } from 'kysely';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { build } from 'vite';
import { expect, test } from 'vitest';
import { type Library, openLibrary, putInstrument, putStringSet } from '../../src-main/library/index.ts';
import { evening, instrument, stringSet, temporaryFolder } from '../support/host.ts';

const kills = 100;
/** Four libraries at a time: while one waits for its disk, another starts. */
const lanes = 4;

/** The writer as one file: it starts a hundred times, and starting from its many sources would take most of this test. */
async function bundledWriter(): Promise<string> {
  const folder = await temporaryFolder();
  const source = join(import.meta.dirname, '..', 'support', 'writer.ts');
  await build({ configFile: false, logLevel: 'error', ssr: { noExternal: true }, build: { ssr: source, outDir: folder, minify: false } });
  return join(folder, 'writer.js');
}

/** Lets a process append readings from `first` on and kills it after `acknowledgements` of them and `microseconds` more. Returns the last acknowledged. */
function writeUntilKilled(writer: string, folder: string, first: number, acknowledgements: number, microseconds: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [writer, folder, String(first)], { stdio: ['ignore', 'pipe', 'pipe'] });
    let acknowledged = '';
    let complaint = '';
    let isDoomed = false;
    child.stderr.on('data', (text: Buffer) => (complaint += text.toString('utf8')));
    child.stdout.on('data', (text: Buffer) => {
      acknowledged += text.toString('ascii');
      if (isDoomed || acknowledged.split('\n').length <= acknowledgements) return;
      isDoomed = true;
      const until = process.hrtime.bigint() + BigInt(microseconds) * 1000n;
      while (process.hrtime.bigint() < until);
      child.kill('SIGKILL');
    });
    child.once('error', reject);
    child.once('close', (_code, signal) => {
      const numbers = acknowledged.split('\n').slice(0, -1);
      if (signal === 'SIGKILL' && isDoomed) resolve(Number(numbers.at(-1)));
      else reject(new Error(`the writer ended by itself: ${complaint}`));
    });
  });
}

async function expectAllAcknowledged(library: Library, lastAcknowledged: number): Promise<number> {
  const found = await sql<{ count: number; last: number }>`SELECT count(*) AS count, max(at) AS last FROM readings`.execute(library.rows);
  const { count, last } = found.rows[0]!;
  // Numbers are given without gaps, so that as many rows as the last number says means every one of them. One more may be on the disk unacknowledged.
  expect(count).toBe(last - evening + 1);
  expect(count).toBeGreaterThan(lastAcknowledged);
  const whole = await sql<{ quick_check: string }>`PRAGMA integrity_check`.execute(library.rows);
  expect(Object.values(whole.rows[0]!)).toEqual(['ok']);
  expect(library.notice).toBeNull();
  return count;
}

/** Kills writers of one library again and again; each goes on where the rows on the disk end. */
async function killAgainAndAgain(writer: string, seed: number, times: number): Promise<void> {
  const random = xoroshiro128plus(seed);
  const folder = await temporaryFolder();
  const start = await openLibrary(folder, () => evening);
  await start.rows.transaction().execute(async (rows) => {
    await putInstrument(rows, instrument, 'player');
    await putStringSet(rows, stringSet, 'player');
  });
  await start.close();
  let next = 0;
  for (let kill = 0; kill < times; kill += 1) {
    const last = await writeUntilKilled(writer, folder, next, uniformInt(random, 1, 30), uniformInt(random, 0, 3000));
    const library = await openLibrary(folder, () => evening);
    next = await expectAllAcknowledged(library, last);
    await library.close();
  }
}

test('a process killed a hundred times while it writes loses no reading that it acknowledged', { timeout: 120_000 }, async () => {
  const writer = await bundledWriter();
  await Promise.all(Array.from({ length: lanes }, (_, lane) => killAgainAndAgain(writer, 20_261_125 + lane, kills / lanes)));
});
