import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { filesIn, importsIn, importsOf } from './imports.ts';
import { breaches } from './rules.ts';
import { readTable } from './table.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const rules = readTable(new URL('../../DEVELOPERS.md', import.meta.url));
const folders = ['src-shared', 'src-main', 'src-renderer', 'demo-data'];
const files = folders.flatMap((folder) => filesIn(root, folder));

describe('who may import whom', () => {
  test('no file breaks the table in DEVELOPERS.md', () => {
    expect(files.length).toBeGreaterThan(100);
    expect(
      breaches(
        files.flatMap((file) => importsOf(root, file)),
        rules,
      ),
    ).toEqual([]);
  });

  test('every room on disk has a row in the table', () => {
    const rooms = new Set(files.map((file) => file.split('/').slice(0, 2).join('/')).filter((room) => room.startsWith('src-shared/')));
    expect([...rooms].filter((room) => !rules.some((rule) => rule.room === room))).toEqual([]);
  });

  test.each([
    ['src-shared/pitch/x.ts', "import { pitchHertz } from '#shared/music/index.ts';", 'may import src-shared/units'],
    ['src-shared/units/x.ts', "import { readFileSync } from 'node:fs';", 'may use none'],
    ['src-shared/matching/x.ts', "import { createPitchTracker } from '#shared/pitch/index.ts';", 'only its types'],
    ['src-renderer/screens/retune/x.tsx', "import { openHost } from '../../host/index.ts';", 'may import'],
    ['src-renderer/ui/x.tsx', "import { session } from '../stores/session.ts';", 'may import'],
    ['src-renderer/stores/x.ts', "import { app } from 'electron';", 'may use'],
    ['src-main/preload/x.ts', "import { z } from 'zod';", 'may use electron'],
    ['src-main/library/x.ts', "import { assess } from '#shared/settling/index.ts';", 'may import'],
    ['src-main/listen.ts', "import { advise } from '#shared/guidance/advice.ts';", 'through its index.ts'],
  ])('an import that is not allowed is named: %s', (file, text, reason) => {
    expect(breaches(importsIn(file, text), rules).join()).toContain(reason);
  });
});

describe('the core is pure', () => {
  const pure = files.filter((file) => file.startsWith('src-shared/') && !file.endsWith('.d.ts'));
  test.each(['Date', 'Math.random', 'setTimeout', 'performance', 'console'])('no file of src-shared uses %s', (name) => {
    const use = new RegExp(String.raw`(?<![\w.'"])${name.replace('.', String.raw`\.`)}[.(]`, 'u');
    expect(pure.filter((file) => use.test(withoutComments(readFileSync(join(root, file), 'utf8'))))).toEqual([]);
  });
});

describe('sizes', () => {
  test('no file is longer than 400 lines, and the median is short', () => {
    const lengths = files.map((file) => ({ file, lines: readFileSync(join(root, file), 'utf8').split('\n').length }));
    expect(lengths.filter(({ lines }) => lines > 400)).toEqual([]);
    expect(lengths.map(({ lines }) => lines).sort((a, b) => a - b)[Math.floor(lengths.length / 2)]).toBeLessThan(130);
  });
});

function withoutComments(text: string): string {
  return text.replaceAll(/\/\*[\s\S]*?\*\/|\/\/.*$/gmu, '');
}
