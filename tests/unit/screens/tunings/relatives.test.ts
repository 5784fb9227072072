import { describe, expect, test } from 'vitest';
import type { Tuning } from '#shared/tunings/index.ts';
import { familiesOf, relatives, repeatedOf } from '../../../../src-renderer/screens/tunings/relatives.ts';
import { tuningOf } from '../wren.ts';

const home = 'G4 C4 E4 A4';
const openC = tuningOf('Open C', 'G4 C4 E4 G4', home);
const openD = tuningOf('Open D', 'A4 D4 F#4 A4', home);
const baritoneG = tuningOf('Open G of a baritone', 'D4 G3 B3 D4', 'D4 G3 B3 E4');
const minor = tuningOf('Open C minor', 'G4 C4 Eb4 G4', home);
const kinOf = (all: readonly Tuning[]) => ({ repeated: repeatedOf(all), families: familiesOf(all) });

describe('what a tuning has in common with others', () => {
  test('a row that was written for another home is the same tuning', () => {
    expect(relatives(openC, kinOf([openC, minor, baritoneG]), [], 'Wren')).toEqual(['The same tuning as Open G of a baritone.']);
  });

  test('the same shapes are told with how much higher or lower they lie', () => {
    expect(relatives(openD, kinOf([openC, openD, minor]), [], 'Wren')).toEqual(['The same shapes as Open C, 2 semitones higher.']);
    expect(relatives(openC, kinOf([openC, openD, minor]), [], 'Wren')).toEqual(['The same shapes as Open D, 2 semitones lower.']);
  });

  test('what only sounds alike on the instrument in hand is told apart from the same tuning', () => {
    expect(relatives(openC, kinOf([openC, minor]), ['A mandolin’s'], 'Wren')).toEqual(['Sounds the same on Wren as A mandolin’s.']);
    expect(relatives(minor, kinOf([openC, minor]), [], 'Wren')).toEqual([]);
  });
});
