import { expect, test } from 'vitest';
import { openService, temporaryFolder, tuning } from '../support/host.ts';

test('a host that closes finishes the writes under way, and refuses what comes after with a sentence', async () => {
  const folder = await temporaryFolder();
  const faults: unknown[] = [];
  const service = await openService(folder, { onFault: (fault) => faults.push(fault) });
  const saved = service.answer('tunings.save', tuning);
  const closed = service.close();
  expect(await saved).toMatchObject({ ok: true });
  expect(await service.answer('library.status', {})).toMatchObject({ ok: false, failure: { code: 'not-reachable' } });
  await closed;
  const again = await openService(folder);
  expect(await again.answer('tunings.list', {})).toMatchObject({ ok: true, value: [{ id: tuning.id }] });
  expect(faults).toEqual([]);
});
