import { describe, expect, test } from 'vitest';
import { inputOptions, labelOf, systemInput, valueOf } from '../../../../src-renderer/screens/settings/inputs.ts';

describe('choosing an input', () => {
  test('the system’s choice comes first; stand-ins for it are not listed twice', () => {
    expect(inputOptions(['Default - Built-in', 'Built-in', 'Clip pickup', 'Built-in'], null).map(({ words }) => words)).toEqual([
      'The system’s choice',
      'Built-in',
      'Clip pickup',
    ]);
  });

  test('a remembered input that is unplugged stays chosen, and says so', () => {
    const options = inputOptions(['Built-in'], 'Clip pickup');
    expect(options.at(-1)).toEqual({ value: valueOf('Clip pickup'), words: 'Clip pickup (not plugged in)' });
  });

  test('inputs without names are not offered', () => {
    expect(inputOptions([null, null], null)).toHaveLength(1);
  });

  test('a label comes back from its choice as it was, even one called like the system’s', () => {
    for (const label of ['Built-in', 'input input', systemInput]) expect(labelOf(valueOf(label))).toBe(label);
    expect(labelOf(valueOf(null))).toBeNull();
  });
});
