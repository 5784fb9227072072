import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { startService, type Service } from '../../src-main/service/index.ts';
import { evening, instrument, stringSet, tuning } from './wren.ts';

export * from './wren.ts';

/** A folder of its own for one test, gone afterwards. */
export async function temporaryFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'stillstring-test-'));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  return folder;
}

type ServiceOptions = Parameters<typeof startService>[0];

/** A service on a folder, closed when the test is over. A fault that nobody foresaw is thrown. */
export async function openService(folder: string, options: Partial<ServiceOptions> = {}): Promise<Service> {
  const service = await startService({
    folder,
    facts: { host: 'desk', version: '0.0.0', demoMicrophone: null },
    demoFile: join(folder, 'no-demo.json'),
    clock: () => evening,
    startWithDemo: false,
    onFault: (fault) => {
      throw fault;
    },
    ...options,
  });
  onTestFinished(() => service.close());
  return service;
}

/** The value that a request is answered with. Throws with the failure's sentence where it is refused. */
export async function valueOf(service: Service, name: string, input: unknown = {}): Promise<unknown> {
  const reply = await service.answer(name, input);
  if (!reply.ok) throw new Error(`${name} was refused: ${reply.failure.code}, ${reply.failure.sentence}`);
  return reply.value;
}

/** The code that a request is refused with, or null where it is answered. */
export async function codeOf(service: Service, name: string, input: unknown = {}): Promise<string | null> {
  const reply = await service.answer(name, input);
  return reply.ok ? null : reply.failure.code;
}

/** Puts Wren, her strings and a tuning into the library. */
export async function saveWren(service: Service): Promise<void> {
  await valueOf(service, 'tunings.save', tuning);
  await valueOf(service, 'instruments.save', { instrument, stringSet });
}
