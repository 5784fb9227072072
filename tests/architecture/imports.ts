import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative, sep } from 'node:path';

/** One import of one file. `target` is a file of the project, or a package. */
export type Import = { readonly file: string; readonly target: string; readonly isProject: boolean; readonly isTypeOnly: boolean };

const sources = /\.(?:ts|tsx|mjs)$/u;
const statement =
  /^(?:import|export)\s+(?<type>type\s)?(?:[^;'"]*?\sfrom\s)?'(?<from>[^']+)'|import\('(?<dynamic>[^']+)'\)|new URL\('(?<url>\.[^']+\.ts)'/gmu;

/** Every source file below a folder of the project, as a path from its root. */
export const filesIn = (root: string, folder: string): readonly string[] =>
  readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && sources.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join('/'));

/** The imports that a text makes, as the file at that path would make them. */
export function importsIn(file: string, text: string): readonly Import[] {
  return [...text.matchAll(statement)].map(({ groups }) => {
    const target = (groups?.['from'] ?? groups?.['dynamic'] ?? groups?.['url'] ?? '').replace(/\?.*$/u, '');
    const isTypeOnly = groups?.['type'] !== undefined;
    if (target.startsWith('#shared/')) return { file, target: target.replace('#shared/', 'src-shared/'), isProject: true, isTypeOnly };
    if (target.startsWith('.'))
      return {
        file,
        target: normalize(join(dirname(file), target))
          .split(sep)
          .join('/'),
        isProject: true,
        isTypeOnly,
      };
    return { file, target, isProject: false, isTypeOnly };
  });
}

/** The imports of a file of the project. */
export const importsOf = (root: string, file: string): readonly Import[] => importsIn(file, readFileSync(join(root, file), 'utf8'));
