import { describe, expect, test } from 'vitest';
import type { Overview, SetVerdicts } from '#shared/contract/index.ts';
import { hardwareOf, looksOf } from '../../../../src-renderer/screens/settling/look.ts';
import { warningsOf, warningWords } from '../../../../src-renderer/screens/settling/warnings.ts';
import { instrumentOf } from '../wren.ts';
import { clock, now, row, stringRow } from './support.ts';

const slips = [
  { atSeconds: clock(20, 7), cents: -5 },
  { atSeconds: clock(20, 17), cents: -8 },
];
const slipping = row(2, 'Eb4', stringRow({ verdict: 'slipping', slips, keepsSlipping: true }));
const creeping = row(3, 'Bb3', stringRow({ verdict: 'settling' }));
const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');

type Warned = SetVerdicts['strings'][number];
const judged = (course: number, warning: Warned['warning']): Warned => ({
  course,
  string: 0,
  verdict: 'slipping',
  holdsFromSeconds: null,
  nextCheckSeconds: null,
  driftCents: 0,
  insideTolerance: null,
  why: '',
  warning,
});
const keeps = (isSeen: boolean): Warned['warning'] => ({ kind: 'keeps-slipping', since: clock(20, 17) * 1000, isSeen });
const looks = (one: typeof slipping) => looksOf(wren, [], one, now);
const facts = (isSeen: boolean, seenAt: number | null = null) => ({
  strings: [judged(1, null), judged(2, keeps(isSeen))],
  seen: seenAt === null ? [] : [{ id: 'seen', stringSetId: 'wren-set', at: seenAt, course: 2, string: 0, kind: 'keeps-slipping' as const }],
  looksOf: looks,
});

describe('a warning', () => {
  test('is of the string that slips, never of one that creeps', () => {
    const warnings = warningsOf([creeping, slipping], facts(false));
    expect(warnings.map((one) => one.row.number)).toEqual([2]);
  });

  test('says where to look in the order of likelihood, and why there first', () => {
    const [warning] = warningsOf([slipping], facts(false));
    const { strong, rest } = warningWords(warning!, now);
    expect(strong).toMatch(/^Look at the .+ of course 2 first$/u);
    expect(rest.match(/then the/gu)).toHaveLength(2);
    expect(looks(slipping).map(({ words }) => words)).toContain('the tie at the bridge');
  });

  test('that was seen stays as a quiet line with its time', () => {
    const [warning] = warningsOf([slipping], facts(true, clock(20, 20) * 1000));
    const { strong, rest } = warningWords(warning!, now);
    expect(strong).toBe('');
    expect(rest).toMatch(/^Course 2 keeps slipping; seen 20:20\. Look at the /u);
  });

  test('not yet seen comes before one that was', () => {
    const other = row(1, 'A4', stringRow({ verdict: 'slipping', slips }));
    const strings = [judged(2, keeps(true)), judged(3, { ...keeps(false)!, kind: 'slips' })];
    const warnings = warningsOf([slipping, other], { strings, seen: [], looksOf: looks });
    expect(warnings.map(({ row: { number }, seenAt }) => [number, seenAt !== null])).toEqual([
      [1, false],
      [2, true],
    ]);
  });

  test('of one step, calm since, tells of the step', () => {
    const calm = row(2, 'Eb4', stringRow({ verdict: 'holding', slips: slips.slice(0, 1) }));
    const strings = [judged(2, { kind: 'slips', since: 0, isSeen: false })];
    const [warning] = warningsOf([calm], { strings, seen: [], looksOf: looks });
    expect(warningWords(warning!, now).strong).toMatch(/^Course 2 slipped 5 c by 20:07, calm since: look at the /u);
  });
});

describe('how strings are held', () => {
  test('follows the kind of instrument; where it comes both ways it is not known', () => {
    const unsaid = (presetId: string) => hardwareOf({ presetId, pegs: null, bridge: null });
    expect(unsaid('guitar-classical').pegs).toBe('geared');
    expect(unsaid('banjo-five-string').pegs).toBe('planetary');
    expect(unsaid('ukulele-baritone')).toEqual({ pegs: null, bridge: null });
  });

  test('is as the player said, whatever its kind mostly has', () => {
    expect(hardwareOf({ presetId: 'guitar-classical', pegs: 'friction', bridge: 'pinned' })).toEqual({ pegs: 'friction', bridge: 'slot' });
  });

  const placesOn = (held: Partial<Overview['instrument']>) =>
    looksOf({ ...wren, instrument: { ...wren.instrument, ...held } }, [], slipping, now).map(({ words }) => words);

  test('decides where to look: a friction peg at its screw, a planetary one at its housing, and a worm last', () => {
    expect(placesOn({ pegs: 'friction' })[0]).toBe('the peg screw');
    expect(placesOn({ pegs: 'planetary' })).toContain('the housing of the peg');
    expect(placesOn({ pegs: 'planetary' })).not.toContain('the peg screw');
    expect(placesOn({ pegs: 'geared' })[0]).not.toMatch(/peg screw|gear/u);
  });

  test('names the end of a string as it is on this instrument', () => {
    const ends = (bridge: Overview['instrument']['bridge']) =>
      placesOn({ pegs: 'geared', bridge }).find((place) => /tie |knot /u.test(place));
    expect([ends('tied'), ends('slotted'), ends('pinned'), ends('tailpiece')]).toEqual([
      'the tie at the bridge',
      'the knot at the bridge',
      'the knot under its bridge pin',
      'the knot at the tailpiece',
    ]);
  });
});
