// A library of 1 000 instruments, 5 000 tunings and 2 000 000 readings: opened, asked, gone through in Chromium; and a file of 10 MB taken in.
// Printed, never asserted. Each figure is the median of a few runs, the host in this process.

import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { errors } from 'playwright';
import { writeLibraryFile } from '#shared/exchange/index.ts';
import { type Service, startService } from '../../src-main/service/index.ts';
import { evening } from '../support/wren.ts';
import { makeLibrary, manyReadings, manyThings, setId } from './library/large.ts';
import { useInChromium, type Work } from './library/in-chromium.ts';

const runs = 5;
const size = { instruments: 1000, tunings: 5000, readings: 2_000_000 } as const;
/** A file of about ten million characters. */
const fileSize = { instruments: 500, tunings: 5000, readings: 30_000 } as const;

const milliseconds = (values: readonly number[]): string => {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number): string => (sorted[Math.floor((sorted.length - 1) * share)] ?? Number.NaN).toFixed(0);
  return `${at(0.5)} ms (longest ${at(1)} ms, ${sorted.length} times)`;
};

async function timed<Result>(work: () => Promise<Result>): Promise<readonly [number, Result]> {
  const started = performance.now();
  const result = await work();
  return [performance.now() - started, result];
}

const open = (folder: string): Promise<Service> =>
  startService({
    folder,
    facts: { host: 'desk', version: '0.0.0', demoMicrophone: null },
    demoFile: '',
    clock: () => evening,
    startWithDemo: false,
    onFault: (fault) => {
      throw fault;
    },
  });

async function ask(service: Service, name: string, input: unknown = {}): Promise<number> {
  const [time, reply] = await timed(() => service.answer(name, input));
  if (!reply.ok) throw new Error(`${name}: ${reply.failure.sentence}`);
  return time;
}

async function times(count: number, work: () => Promise<number>): Promise<readonly number[]> {
  const found: number[] = [];
  for (let run = 0; run < count; run += 1) found.push(await work());
  return found;
}

const day = 86_400_000;
const yearByDays = { from: evening - 365 * day, until: evening, bucketMilliseconds: day };

async function largeLibrary(folder: string): Promise<void> {
  const [made] = await timed(() => makeLibrary(folder, size));
  const megabytes = (statSync(join(folder, 'library.sqlite')).size / 1e6).toFixed(0);
  console.log(
    `made: ${size.instruments} instruments, ${size.tunings} tunings, ${size.readings} readings; ${megabytes} MB, in ${(made / 1000).toFixed(0)} s`,
  );
  const [first, service] = await timed(() => open(folder));
  const backedUp = await timed(() => service.close());
  console.log(
    `first opened (with the check of the whole file): ${first.toFixed(0)} ms; the day's backup ${backedUp[0].toFixed(0)} ms, beside other work`,
  );
  const opened = await times(3, async () => {
    const [time, again] = await timed(() => open(folder));
    await again.close();
    return time;
  });
  console.log(`opened again: ${milliseconds(opened)}`);
  const again = await open(folder);
  const figures: readonly (readonly [string, string, unknown])[] = [
    ['overview.read', 'overview.read', {}],
    ['tunings.list', 'tunings.list', {}],
    ['log.read, the last 4 retunes of one string set', 'log.read', { stringSetId: setId(499), retunes: 4 }],
    ['log.read, all 20 retunes of one string set', 'log.read', { stringSetId: setId(499), retunes: 200 }],
    ['log.summary, a year of one string set by days', 'log.summary', { stringSetId: setId(499), ...yearByDays }],
    ['verdicts.read, one string set judged before', 'verdicts.read', { stringSetIds: [setId(499)] }],
  ];
  for (const [words, name, input] of figures) console.log(`${words}: ${milliseconds(await times(runs, () => ask(again, name, input)))}`);
  const eight = Array.from({ length: 8 }, (_, at) => setId(at));
  console.log(
    `verdicts.read, eight string sets for the first time: ${(await ask(again, 'verdicts.read', { stringSetIds: eight })).toFixed(0)} ms`,
  );
  await again.close();
}

async function largeFile(folder: string): Promise<void> {
  const text = writeLibraryFile({ ...manyThings(fileSize), readings: [...manyReadings(fileSize)] });
  const service = await open(folder);
  const looked = await times(3, () => ask(service, 'library.previewImport', { text }));
  const taken = await ask(service, 'library.import', { text, decisions: [] });
  const again = await ask(service, 'library.previewImport', { text });
  await service.close();
  console.log(`a file of ${(text.length / 1e6).toFixed(1)} MB, ${fileSize.readings} readings in it: looked at in ${milliseconds(looked)}`);
  console.log(
    `taken in by an empty library: ${taken.toFixed(0)} ms; looked at once more against what is now there: ${again.toFixed(0)} ms`,
  );
}

const told = ({ name, milliseconds: time, longTasks }: Work): string =>
  `${name} ${time.toFixed(0)} ms (${longTasks.length} tasks over 50 ms, the longest ${Math.max(0, ...longTasks).toFixed(0)} ms)`;

async function inChromium(folder: string, words: string): Promise<void> {
  try {
    const { screen, judged, visits, scrolling, keystrokes, unchanged } = await useInChromium(folder, 'instrument-0');
    console.log(`in Chromium, ${words}: first screen ${screen.toFixed(0)} ms, then gone to: ${visits.map(told).join(', ')}`);
    console.log(`instruments with their verdicts, gone back to: ${judged.toFixed(0)} ms; ${told(scrolling)} through 48 000 px of tunings`);
    console.log(`search, keystroke to other rows painted: ${milliseconds(keystrokes)}; ${unchanged} keystrokes left the rows as they were`);
  } catch (fault) {
    if (!(fault instanceof errors.TimeoutError)) throw fault;
    console.log(`in Chromium, ${words}: not all was there in time. ${fault.message.split('\n')[0]}`);
  }
}

const folder = mkdtempSync(join(tmpdir(), 'stillstring-library-'));
try {
  await largeLibrary(join(folder, 'large'));
  await largeFile(join(folder, 'empty'));
  await makeLibrary(join(folder, 'young'), { ...size, readings: 20_000 });
  for (const [name, words] of [
    ['young', 'with 20 000 readings'],
    ['large', 'with all readings'],
  ] as const)
    await inChromium(join(folder, name), words);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
