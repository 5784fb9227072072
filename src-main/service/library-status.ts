import type { Output } from '#shared/contract/index.ts';
import { hasDemoRows, type Library } from '../library/index.ts';

/** What a host knows about itself. */
export type HostFacts = Pick<Output<'library.status'>, 'host' | 'version' | 'demoMicrophone'>;

/** How the library stands: where it lies, what was found when it was opened, how many days have a backup. */
export async function readLibraryStatus(library: Library, facts: HostFacts): Promise<Output<'library.status'>> {
  return {
    ...facts,
    dataFolder: library.folder,
    backups: await library.countBackups(),
    demo: await hasDemoRows(library.rows),
    notice: library.notice,
  };
}
