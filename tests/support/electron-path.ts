import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Electron's binary, or null where it was never downloaded. Reads the package's own note; asking the package would download. */
export function electronPath(): string | null {
  const folder = new URL('../../node_modules/electron/', import.meta.url);
  const note = new URL('path.txt', folder);
  if (!existsSync(note)) return null;
  const binary = fileURLToPath(new URL(`dist/${readFileSync(note, 'utf8').trim()}`, folder));
  return existsSync(binary) ? binary : null;
}
