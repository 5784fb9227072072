import { describe, expect, test } from 'vitest';
import type { ImportPreview } from '#shared/contract/index.ts';
import { askingRows, choiceOptions, decisionsOf, importWords, rowKey } from '../../../../src-renderer/screens/tunings/import-rows.ts';

const row = (
  part: 'instruments' | 'tunings' | 'songs',
  id: string,
  standing: 'new' | 'same' | 'differs',
): ImportPreview['rows'][number] => ({
  part,
  id,
  name: id,
  standing,
  present: standing === 'new' ? null : { id, name: id },
  choices: standing === 'new' ? ['add', 'leave'] : standing === 'same' ? [] : ['keep-both', 'replace', 'leave'],
});
const preview: ImportPreview = {
  rows: [
    row('instruments', 'Wren', 'same'),
    row('tunings', 'Open C', 'new'),
    row('tunings', 'Open F', 'differs'),
    row('songs', 'Ferry', 'new'),
  ],
  retunes: 2,
  readings: 31,
};

describe('a library file, before it is taken in', () => {
  test('is told in a few sentences', () => {
    expect(importWords(preview)).toBe(
      'New: 1 tuning and 1 song. Here already, but different: 1 tuning. Here already, just the same: 1 instrument. The file brings 31 readings; those that the log has already are not doubled.',
    );
    expect(importWords({ rows: [], retunes: 0, readings: 0 })).toBe('There is nothing in this file.');
  });

  test('asks first about what differs, and never about what is the same', () => {
    expect(askingRows(preview).map(({ name }) => name)).toEqual(['Open F', 'Open C', 'Ferry']);
    expect(choiceOptions(row('tunings', 'x', 'differs')).map(({ words }) => words)).toEqual([
      'keep both',
      'replace the one here',
      'leave it out',
    ]);
  });

  test('sends only the choices that are not the ones that lose nothing', () => {
    const rows = askingRows(preview);
    const chosen = new Map([
      [rowKey({ part: 'tunings', id: 'Open F' }), 'replace' as const],
      [rowKey({ part: 'tunings', id: 'Open C' }), 'add' as const],
    ]);
    expect(decisionsOf(rows, chosen)).toEqual([{ part: 'tunings', id: 'Open F', choice: 'replace' }]);
  });
});
