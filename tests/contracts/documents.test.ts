import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const read = (name: string): string => readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8');
const { scripts } = JSON.parse(read('package.json')) as { readonly scripts: Readonly<Record<string, string>> };

describe.each(['README.md', 'DEVELOPERS.md'])('%s tells the truth', (name) => {
  const text = read(name);

  test('every npm script that it names exists', () => {
    const named = [...text.matchAll(/npm (?:run )?(?<script>start|test|[a-z0-9]+(?:[:-][a-z0-9]+)*)\b/gu)].map(
      ({ groups }) => groups?.['script'] ?? '',
    );
    expect(named.length).toBeGreaterThan(2);
    expect(named.filter((script) => script !== 'run' && scripts[script] === undefined)).toEqual([]);
  });

  test('every file and folder that it names exists', () => {
    const named = [...text.matchAll(/\((?<link>[\w./-]+\.(?:png|md))\)|`(?<path>(?:src-|tests\/|demo-data\/)[\w./-]+)`/gu)].map(
      ({ groups }) => groups?.['link'] ?? groups?.['path'] ?? '',
    );
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter((path) => !path.includes('NNNN') && !existsSync(new URL(`../../${path}`, import.meta.url)))).toEqual([]);
  });
});
