import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The folder of package.json above this file: the same whether the source runs or what was built from it. */
export function applicationRoot(): string {
  let folder = import.meta.dirname;
  while (!existsSync(join(folder, 'package.json'))) {
    if (dirname(folder) === folder) throw new Error(`no package.json above ${import.meta.dirname}`);
    folder = dirname(folder);
  }
  return folder;
}
