import { sql } from 'kysely';
import { describe, expect, onTestFinished, test } from 'vitest';
import type { Output } from '#shared/contract/index.ts';
import type { Reading } from '#shared/log/index.ts';
import { openLibrary } from '../../src-main/library/index.ts';
import { summary } from '../../src-main/library/readings.ts';
import { evening, openService, reading, remarks, saveWren, stringSet, temporaryFolder, valueOf } from '../support/host.ts';

const hour = 3_600_000;
const day = 24 * hour;
const heard = (id: string, at: number, deviationCents: number, course = 1, sigmaCents = 0.3): Reading => ({
  ...reading,
  id,
  retuneId: null,
  at,
  course,
  deviationCents,
  sigmaCents,
});

describe('a year of readings, summed up by days', () => {
  test('tells of each string and day how many there were, their mean, their ends and the last one', async () => {
    const service = await openService(await temporaryFolder());
    await saveWren(service);
    const readings = [
      heard('a', evening - 2 * day, -4),
      heard('c', evening - 2 * day + 2 * hour, -1, 1, 0.7),
      heard('b', evening - 2 * day + hour, -7),
      heard('d', evening - 2 * day, 2, 3),
      heard('e', evening - hour, 5),
      heard('wrong', evening - hour + 1, 300),
      heard('before', evening - 9 * day, 50),
      heard('after', evening + hour, 50),
    ];
    const corrections = [{ ...remarks.corrections[0]!, readingId: 'wrong' }];
    await valueOf(service, 'log.append', { readings, corrections });
    const from = evening - 3 * day;
    const asked = { stringSetId: stringSet.id, from, until: evening, bucketMilliseconds: day };
    const rows = (await valueOf(service, 'log.summary', asked)) as Output<'log.summary'>;
    expect(rows).toEqual([
      {
        course: 1,
        string: 0,
        bucket: 1,
        count: 3,
        meanCents: -4,
        lowestCents: -7,
        highestCents: -1,
        lastAt: evening - 2 * day + 2 * hour,
        lastCents: -1,
        lastSigmaCents: 0.7,
      },
      {
        course: 1,
        string: 0,
        bucket: 2,
        count: 1,
        meanCents: 5,
        lowestCents: 5,
        highestCents: 5,
        lastAt: evening - hour,
        lastCents: 5,
        lastSigmaCents: 0.3,
      },
      {
        course: 3,
        string: 0,
        bucket: 1,
        count: 1,
        meanCents: 2,
        lowestCents: 2,
        highestCents: 2,
        lastAt: evening - 2 * day,
        lastCents: 2,
        lastSigmaCents: 0.3,
      },
    ]);
  });

  test('is read from the index alone: no look through the readings, however many there are', async () => {
    const library = await openLibrary(await temporaryFolder(), () => evening);
    onTestFinished(() => library.close());
    const asked = summary({ stringSetId: stringSet.id, from: 0, until: evening, bucketMilliseconds: day });
    const plan = await sql<{ detail: string }>`EXPLAIN QUERY PLAN ${asked}`.execute(library.rows);
    const steps = plan.rows.map(({ detail }) => detail);
    expect(steps).toContainEqual(
      expect.stringMatching(
        /^SEARCH heard USING COVERING INDEX readingsOfString \(stringSetId=\? AND course=\? AND string=\? AND at>\? AND at<\?\)/,
      ),
    );
    expect(steps.filter((step) => /^SCAN (heard|readings|latest|one|marked)\b/.test(step))).toEqual([]);
  });
});
