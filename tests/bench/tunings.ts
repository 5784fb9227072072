// The tunings of a large library in Chromium, and a large file taken in; printed, never asserted.
// 1 000 instruments, 5 000 tunings: open, scroll, search, with the tasks that held the page for more than 50 ms.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright';
import { writeLibraryFile, type LibraryRows } from '#shared/exchange/index.ts';
import { instrumentPresets, stringSetFromPreset } from '#shared/instruments/index.ts';
import { parsePitches, type SpelledPitch } from '#shared/music/index.ts';
import { startService } from '../../src-main/service/index.ts';
import { openDesk } from '../e2e/app.ts';
import { chromiumArguments, chromiumPath } from '../support/chromium.ts';
import { noRows } from '../unit/exchange/rows.ts';

const tunings = 5000;
const readings = 40_000;
const now = Date.now();

const pitches = (text: string): SpelledPitch[] => {
  const read = parsePitches(text);
  if ('notAPitch' in read) throw new RangeError(read.notAPitch);
  return [...read];
};
const letters = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'Gb', 'G', 'Ab', 'A', 'Bb', 'B'];
/** Four courses, each at most six semitones from home: another row for every number below 13⁴. */
const pitchAt = (midi: number): string => `${letters[midi % 12]}${Math.floor(midi / 12) - 1}`;
const step = (number: number, course: number): number => (Math.floor(number / 13 ** course) % 13) - 6;

function library(instruments: number): LibraryRows {
  const presets = instrumentPresets.filter(({ courses }) => courses.length === 4 && courses.every(({ strings }) => strings.length === 1));
  const rows = Array.from({ length: instruments }, (_, at) => {
    const preset = presets[at % presets.length];
    if (preset === undefined) throw new Error('there is no preset of four courses');
    const { id: presetId, kind, scaleLengthMillimetres, frets } = preset;
    const id = `instrument-${at}`;
    const set = stringSetFromPreset(preset, { id: `set-${at}`, instrumentId: id, name: 'First set', fittedAt: now });
    const row = { id, name: `Instrument ${at}`, presetId, kind, scaleLengthMillimetres, frets, leftHanded: false, upsideDown: false };
    const hardware = { pegs: null, bridge: null, pegsHavePlay: false };
    return { set, instrument: { ...row, ...hardware, inputLabel: null, inputChannel: 0, stringSetId: set.id, tuningId: null } };
  });
  return {
    ...noRows,
    instruments: rows.map(({ instrument }) => instrument),
    stringSets: rows.map(({ set }) => set),
    tunings: Array.from({ length: tunings }, (_, at) => ({
      id: `tuning-${at}`,
      name: `Invented ${at}`,
      courses: [67, 60, 64, 69].map((home, course) => ({ pitches: pitches(pitchAt(home + step(at, course))), offsetCents: 0 })),
      home: [67, 60, 64, 69].map((home) => pitches(pitchAt(home))),
      favourite: at % 9 === 0,
      tags: [`tag ${at % 7}`],
      notes: 'An invented tuning.',
    })),
    readings: Array.from({ length: readings }, (_, at) => ({
      id: `reading-${at}`,
      stringSetId: 'set-0',
      retuneId: null,
      at: now - at * 60_000,
      course: at % 4,
      string: 0,
      hertz: 440,
      wantedHertz: 440,
      deviationCents: 0,
      sigmaCents: 0.3,
      source: 'pluck' as const,
    })),
  };
}

async function fill(folder: string): Promise<void> {
  const text = writeLibraryFile(library(500));
  const facts = { host: 'desk', version: '0', demoMicrophone: null } as const;
  const onFault = (fault: unknown): void => console.error(fault);
  const service = await startService({ folder, facts, demoFile: '', clock: Date.now, startWithDemo: false, onFault });
  const timed = async (name: string, input: unknown): Promise<number> => {
    const started = performance.now();
    const reply = await service.answer(name, input);
    if (!reply.ok) throw new Error(reply.failure.sentence);
    return performance.now() - started;
  };
  const looking = await timed('library.previewImport', { text });
  const taking = await timed('library.import', { text, decisions: [] });
  const reading = await timed('overview.read', {});
  const listing = await timed('tunings.list', {});
  const millions = (text.length / 1e6).toFixed(1);
  console.log(
    `a file of ${millions} MB (500 instruments, ${tunings} tunings, ${readings} readings): looked at in ${looking.toFixed(0)} ms, taken in in ${taking.toFixed(0)} ms`,
  );
  console.log(`then the host answers: overview ${reading.toFixed(0)} ms, tunings ${listing.toFixed(0)} ms`);
  await service.close();
}

type Long = { readonly count: number; readonly longest: number };

/** Tasks of the page over 50 ms while `work` runs, by the browser's own Long Tasks API. */
async function longTasks(page: Page, work: () => Promise<void>): Promise<Long> {
  await page.evaluate(() => {
    const found: number[] = [];
    Object.assign(window, { found });
    new PerformanceObserver((list) => found.push(...list.getEntries().map(({ duration }) => duration))).observe({
      entryTypes: ['longtask'],
    });
  });
  await work();
  await page.waitForTimeout(300);
  return page.evaluate(() => {
    const { found } = window as unknown as { readonly found: readonly number[] };
    return { count: found.length, longest: Math.max(0, ...found) };
  });
}

const told = ({ count, longest }: Long): string => `${count} tasks over 50 ms, the longest ${longest.toFixed(0)} ms`;

async function look(folder: string): Promise<void> {
  const desk = await openDesk(folder);
  const executablePath = chromiumPath();
  if (executablePath === null) throw new Error('There is no Chromium on this machine.');
  const browser = await chromium.launch({ executablePath, args: [...chromiumArguments(null)] });
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(desk.address);
  await page.getByRole('heading', { level: 1 }).waitFor();
  await page.waitForTimeout(8000);
  const opened = performance.now();
  await page.evaluate(() => {
    location.hash = '/tunings?on=instrument-0';
  });
  await page.getByRole('row').first().waitFor();
  console.log(`tunings gone to: first rows after ${(performance.now() - opened).toFixed(0)} ms`);
  const list = page.getByRole('grid', { name: 'Tunings' });
  const scrolling = await longTasks(page, async () => {
    for (let turn = 0; turn < 40; turn += 1) {
      await list.evaluate((element) => element.scrollBy(0, 1200));
      await page.waitForTimeout(30);
    }
  });
  console.log(`scrolled through 48 000 px: ${told(scrolling)}`);
  const search = page.getByRole('textbox', { name: 'Search' });
  await search.click();
  const painted: number[] = [];
  const searching = await longTasks(page, async () => {
    for (const letter of ['i', 'n', 'v', 'e', 'n', 't', 'e', 'd', ' ', '4', '9', '9']) {
      const milliseconds = await page.evaluate(
        (key) =>
          new Promise<number>((resolve) => {
            const started = performance.now();
            document.execCommand('insertText', false, key);
            requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - started)));
          }),
        letter,
      );
      painted.push(milliseconds);
      await page.waitForTimeout(250);
    }
  });
  const sorted = painted.toSorted((a, b) => a - b);
  console.log(
    `search, keystroke to the next painted frame: median ${sorted[6]?.toFixed(0)} ms, worst ${sorted.at(-1)?.toFixed(0)} ms; ${told(searching)}`,
  );
  await browser.close();
  await desk.close();
}

const folder = mkdtempSync(join(tmpdir(), 'stillstring-tunings-'));
await fill(folder);
await look(folder);
rmSync(folder, { recursive: true, force: true });
