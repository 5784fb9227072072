import { mkdtempSync, rmSync } from 'node:fs';
import { DatabaseSync } from 'node:sqlite';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, test } from 'playwright/test';
import { carry, tuningPresets } from '#shared/tunings/index.ts';
import { startService } from '../../src-main/service/index.ts';
import { chromiumArguments, chromiumPath } from '../support/chromium.ts';
import { checkByEye, retuneByEye } from '../support/player-by-eye.ts';
import { openDesk } from './app.ts';

/** Four of the demo's instruments: tenors with a high and a low G, a soprano, and a baritone. */
const instruments = [
  { id: 'demo-wren', name: 'Wren' },
  { id: 'demo-finch', name: 'Finch' },
  { id: 'demo-pip', name: 'Pip' },
  { id: 'demo-moth', name: 'Moth' },
] as const;
const home = [['G4'], ['C4'], ['E4'], ['A4']] as const;
const starters = tuningPresets.flatMap(({ id, name, tags, pitches, home: writtenFor }) => {
  const written = { courses: pitches.map((pitch) => ({ pitches: [pitch] })), home: writtenFor.map((pitch) => [pitch]) };
  if (JSON.stringify(written.home) !== JSON.stringify(home) || carry(written, written.home) === null) return [];
  const courses = written.courses.map((course) => ({ ...course, offsetCents: 0 }));
  return [{ id: `starter-${id}`, name: `Starter ${name}`, tags: [...tags], courses, home: written.home, favourite: false, notes: '' }];
});

/** All of it takes half an hour: `STILLSTRING_EVERY_STARTER=1 npm run e2e -- on-screen --workers 4 --fully-parallel`. */
const isLong = process.env['STILLSTRING_EVERY_STARTER'] === '1';
const wanted = isLong ? starters : starters.filter(({ id }) => id === 'starter-ukulele-course-4-down');
const patienceSeconds = 240;
/** The strings creep between the retune and the plucks that check it. */
const toleranceCents = 3;
const creptCents = 3;

for (const { id, name } of isLong ? instruments : instruments.slice(3))
  test(`a player who only reads the screen brings ${name} into ${isLong ? 'every starter tuning' : 'its low course down a tone'}`, async () => {
    test.setTimeout(1000 * (patienceSeconds + 60) * wanted.length);
    const folder = mkdtempSync(join(tmpdir(), 'stillstring-on-screen-'));
    await fill(join(folder, 'demo'));
    const desk = await openDesk(folder, '--demo');
    const browser = await chromium.launch({ executablePath: chromiumPath() ?? '', args: [...chromiumArguments(null)] });
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(desk.address);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    for (const tuning of wanted) {
      await page.evaluate((hash) => {
        location.hash = hash;
      }, `#/retune?on=${id}&to=${tuning.id}`);
      await expect(page.getByRole('heading', { level: 1 })).toHaveText(tuning.name, { timeout: 30_000 });
      await page.getByRole('button', { name: 'Start listening' }).click();
      await retuneByEye(page, `${name} is in ${tuning.name}`, patienceSeconds);
      await checkByEye(page);
    }
    await browser.close();
    await desk.close();
    const reached = retunesIn(join(folder, 'demo', 'library.sqlite'));
    expect(reached.map(({ tuningId }) => tuningId).toSorted()).toEqual(wanted.map((tuning) => tuning.id).toSorted());
    for (const { tuningId, courses, worstCents } of reached) {
      expect(courses, tuningId).toBe(4);
      expect(worstCents, tuningId).toBeLessThanOrEqual(toleranceCents + creptCents);
    }
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  });

/** The demo library, with the starter tunings beside it. */
async function fill(folder: string): Promise<void> {
  const service = await startService({
    folder,
    facts: { host: 'desk', version: '0.0.0', demoMicrophone: null },
    demoFile: join(import.meta.dirname, '../../demo-data/library.json'),
    clock: Date.now,
    startWithDemo: true,
    onFault: (fault) => {
      throw fault;
    },
  });
  for (const tuning of starters) expect(await service.answer('tunings.save', tuning)).toMatchObject({ ok: true });
  await service.close();
}

/** Every retune into a starter tuning: how many courses were plucked after it, and how far from wanted the worst of them was then. */
function retunesIn(file: string) {
  const library = new DatabaseSync(file, { readOnly: true });
  const rows = library
    .prepare(
      `SELECT tuningId, count(DISTINCT course) AS courses, max(abs(deviationCents)) AS worstCents FROM (
         SELECT retunes.toTuningId AS tuningId, retunes.id AS retuneId, course, deviationCents,
           row_number() OVER (PARTITION BY retunes.id, course, string ORDER BY readings.at DESC) AS back
         FROM readings JOIN retunes ON retunes.id = readings.retuneId
         WHERE readings.at > retunes.finishedAt AND retunes.toTuningId LIKE 'starter-%')
       WHERE back = 1 GROUP BY retuneId`,
    )
    .all() as { tuningId: string; courses: number; worstCents: number }[];
  library.close();
  return rows;
}
