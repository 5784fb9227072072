import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { dataFolder } from './data-folder.ts';
import { applicationRoot, demoMicrophone } from './pages/index.ts';
import type { startService } from './service/index.ts';

/** What both hosts start from, besides a transport of their own. */
export type StartOptions = Parameters<typeof startService>[0] & { readonly webRoot: string; readonly recordings: string };

/** What a host starts from: its data folder, its pages, and on the demo library a recording in the microphone's place. */
export async function startOptions(host: 'electron' | 'desk', demo: boolean): Promise<StartOptions> {
  const root = applicationRoot();
  const recordings = join(root, 'demo-data', 'recordings');
  const { version } = z.object({ version: z.string() }).parse(JSON.parse(await readFile(join(root, 'package.json'), 'utf8')));
  return {
    folder: dataFolder(demo),
    facts: { host, version, demoMicrophone: demo ? await demoMicrophone(recordings) : null },
    demoFile: join(root, 'demo-data', 'library.json'),
    clock: Date.now,
    startWithDemo: demo,
    onFault: (fault) => console.error(fault),
    webRoot: join(root, 'out', 'renderer'),
    recordings,
  };
}
