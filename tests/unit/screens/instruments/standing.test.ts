import { describe, expect, test } from 'vitest';
import type { Assessment, Verdict } from '#shared/settling/index.ts';
import { boardScale, rowStrings } from '../../../../src-renderer/screens/instruments/row-strings.ts';
import { needOf, standingOf, titleOf } from '../../../../src-renderer/screens/instruments/standing.ts';
import type { StringVerdict } from '../../../../src-renderer/stores/settling.ts';
import { stateOf } from '../../../../src-renderer/stores/strings.ts';
import { instrumentOf, readingOf, settings } from '../wren.ts';

const now = new Date(2026, 10, 25, 20, 24).getTime();
const minutes = 60_000;
const assessment = (verdict: Verdict, holdsFromSeconds: number | null = null): Assessment => ({
  verdict,
  holdsFromSeconds,
  forecast: () => ({ cents: 0, low: 0, high: 0 }),
  slips: [],
  keepsSlipping: false,
  nextCheckSeconds: null,
  why: '',
  driftCents: 0,
  insideTolerance: null,
});
const verdicts = (...all: readonly (Verdict | Assessment)[]): readonly StringVerdict[] =>
  all.map((one, course) => ({ course, string: 0, assessment: typeof one === 'string' ? assessment(one) : one }));

const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
const pitches = [392, 261.626, 329.628, 440];
const wanted = pitches.map((pitch) => [pitch]);
const flat = (cents: number): number => 2 ** (-cents / 1200);
const heard = (centsFlat: readonly number[], at = now - 21 * minutes) => ({
  ...wren,
  lastReadings: centsFlat.map((cents, course) => readingOf(course, pitches[course]! * flat(cents), pitches[course]!, at)),
});

const named = (name: string, verdict: Verdict) => ({ name, standing: { verdict, reason: '' } });
const beads = (overview: typeof wren, all: readonly StringVerdict[]) =>
  rowStrings(overview, stateOf(overview, [], settings).tuning, settings, all).flat();

describe('how a whole instrument stands', () => {
  test('when all hold it says how many and when they were heard', () => {
    const standing = standingOf(heard([0, 0, 0, 0]), verdicts('holding', 'holding', 'holding', 'holding'), wanted, now);
    expect(standing).toEqual({ verdict: 'holding', reason: '4 of 4, heard 20:03' });
  });

  test('one slipping course outweighs all that hold, and is named with its deviation', () => {
    const standing = standingOf(heard([0, 0, 14, 0]), verdicts('holding', 'settling', 'slipping', 'holding'), wanted, now);
    expect(standing).toEqual({ verdict: 'slipping', reason: 'course 2, 14 c flat, heard 20:03' });
  });

  test('it is told from tonight’s pitch, not from the one that was wanted when the string was heard', () => {
    const tonight = wanted.map((course) => course.map((hertz) => (hertz * 442) / 440));
    const { reason } = standingOf(heard([0, 0, 0, 0]), verdicts('holding', 'settling', 'holding', 'holding'), tonight, now);
    // A4 from 440 to 442 Hz is 7.85 cents, closed form: 1200 · log2(442 / 440).
    expect(reason).toBe('course 3, 8 c flat, heard 20:03');
  });

  test('settling says from when it holds', () => {
    const at = assessment('settling', (now + 11 * minutes) / 1000);
    expect(standingOf(heard([0, 0, 0, 4]), verdicts('holding', 'holding', 'holding', at), wanted, now)).toEqual({
      verdict: 'settling',
      reason: 'course 1, holds from 20:35',
    });
  });

  test('settling without a known end does not promise one', () => {
    const { reason } = standingOf(heard([5, 0, 0, 4]), verdicts('settling', 'holding', 'holding', 'settling'), wanted, now);
    expect(reason).toBe('courses 4 and 1, heard 20:03');
  });

  test('an instrument that nobody has heard since its retune gives the day; one never heard says so', () => {
    const all = verdicts('unheard', 'unheard', 'unheard', 'unheard');
    const days = heard([0, 0, 0, 0], new Date(2026, 10, 16, 21).getTime());
    expect(standingOf(days, all, wanted, now)).toEqual({ verdict: 'unheard', reason: 'since 16 November' });
    expect(standingOf(wren, all, wanted, now)).toEqual({ verdict: 'unheard', reason: 'never yet' });
  });

  test('of a string that was turned and not heard since, nobody says how far it is off', () => {
    const some = verdicts('holding', 'holding', 'unheard', 'holding');
    expect(standingOf(heard([0, 0, 97, 0]), some, wanted, now)).toEqual({ verdict: 'unheard', reason: 'course 2, since the retune' });
  });

  test('they come in the order in which they need the player', () => {
    const order = (['holding', 'unheard', 'slipping', 'settling'] as const).map((verdict) => ({ verdict, reason: '' }));
    expect(order.sort((a, b) => needOf(a) - needOf(b)).map(({ verdict }) => verdict)).toEqual([
      'slipping',
      'settling',
      'unheard',
      'holding',
    ]);
    expect(needOf(null)).toBeGreaterThan(needOf({ verdict: 'holding', reason: '' }));
  });

  test('the title names what needs the player most', () => {
    expect(titleOf([named('Rook', 'slipping'), named('Moth', 'settling')])).toBe('Rook is slipping');
    expect(titleOf([named('Rook', 'settling'), named('Moth', 'settling')])).toBe('Rook and Moth are settling');
    expect(titleOf([named('Wren', 'holding'), named('Sedge', 'unheard')])).toBe('Pluck Sedge to hear how it holds');
    expect(titleOf(['a', 'b', 'c', 'd', 'e', 'f'].map((name) => named(name, 'holding')))).toBe('All six hold');
    expect(titleOf([{ name: 'Wren', standing: null }])).toBe('Instruments');
  });
});

describe('the strings of an instrument at a glance', () => {
  test('in tune is a straight column; flat lies towards the nut, sharp towards the saddle', () => {
    const [fourth, third, second, first] = beads(heard([0, 0, 14, -14]), verdicts('holding', 'holding', 'slipping', 'holding'));
    expect(fourth?.at).toBeCloseTo(0.5, 2);
    expect(third?.kind).toBe('within');
    expect(second?.at).toBeLessThan(0.4);
    expect(second?.kind).toBe('below');
    expect(first?.at).toBeGreaterThan(0.6);
    expect(first?.kind).toBe('above');
  });

  test('a string not heard since its last move has no bead', () => {
    expect(beads(heard([0, 0, 0, 0]), verdicts('holding', 'unheard', 'holding', 'holding')).map(({ at }) => at === null)).toEqual([
      false,
      true,
      false,
      false,
    ]);
    expect(beads(wren, verdicts('unheard', 'unheard', 'unheard', 'unheard')).every(({ at, isStill }) => at === null && isStill)).toBe(true);
  });

  test('boards are as long as their scales are long, and the longest still fits', () => {
    expect(boardScale([350, 650])).toBeCloseTo(284 / 650);
    expect(boardScale([350])).toBe(0.44);
    expect(1200 * boardScale([350, 1200])).toBeLessThanOrEqual(284);
  });
});
