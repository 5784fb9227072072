import { describe, expect, test } from 'vitest';
import { meaningOf, shortReason } from '../../../../src-renderer/screens/settling/words.ts';
import { summaryOf } from '../../../../src-renderer/screens/settling/summary.ts';
import { clock, evenly, now, row, stringRow } from './support.ts';

const facts = { now, toleranceCents: 3 };
/** Sentences with plain spaces between a number and its unit. */
const said = (words: string): string => words.replaceAll('\u00a0', ' ');
const meaning = (...given: Parameters<typeof row>) => {
  const { plain, strong } = meaningOf(row(...given), facts);
  return { plain: said(plain), strong: strong === null ? null : said(strong) };
};

describe('what a verdict means', () => {
  test('a string that creeps up to its pitch: when it gets there, how far it goes, from when on it holds', () => {
    const creeping = stringRow({ verdict: 'settling', forecast: evenly(-4, 0.2), driftCents: 6, holdsFromSeconds: clock(20, 40) });
    expect(meaning(3, 'Bb3', creeping)).toEqual({
      plain: 'Now 4 c below. Reaches B♭3 at about 20:44, 6 c sharper by 20:54.',
      strong: 'Holds from about 20:40.',
    });
    expect(shortReason(row(3, 'Bb3', creeping), now)).toBe('creeping sharp');
  });

  test('a string that came past its pitch: when that was', () => {
    const passed = stringRow({ forecast: evenly(-1, -0.125), driftCents: -3.75 });
    expect(meaning(1, 'Bb4', passed)).toEqual({ plain: 'Passed B♭4 at 20:16, now 1 c below. 4 c flatter by 20:54.', strong: null });
  });

  test('a string that will be steady off its pitch: from when on a touch-up lasts', () => {
    const off = { verdict: 'settling', forecast: evenly(6, 0.1), driftCents: 3 } as const;
    expect(meaning(3, 'C4', stringRow({ ...off, holdsFromSeconds: clock(20, 34) })).strong).toBe(
      'A touch-up from about 20:34 on would hold.',
    );
    expect(meaning(3, 'C4', stringRow({ ...off, holdsFromSeconds: now })).strong).toBe('A touch-up now would hold.');
    expect(said(shortReason(row(3, 'C4', stringRow({ ...off, holdsFromSeconds: now })), now))).toBe('still, 6 c above');
    expect(meaning(3, 'C4', stringRow({ ...off, holdsFromSeconds: null })).strong).toBe('Not steady within 30 days.');
  });

  test('a string that holds', () => {
    expect(meaning(4, 'G4', stringRow({ forecast: evenly(0.2), driftCents: 0.1 }))).toEqual({
      plain: 'Now on G4. Almost still.',
      strong: null,
    });
    expect(shortReason(row(4, 'G4', stringRow({ driftCents: -0.8 })), now)).toBe('going flat, almost still');
  });

  test('a string that slips: each step with its time, and why it is no creep', () => {
    const slips = [
      { atSeconds: clock(20, 7), cents: -5.2 },
      { atSeconds: clock(20, 17), cents: -8 },
    ];
    const steps = stringRow({ verdict: 'slipping', slips, keepsSlipping: true, forecast: evenly(-11) });
    expect(meaning(2, 'Eb4', steps).plain).toBe('Down 5 c by 20:07 and down 8 c by 20:17, now 11 c below. Creep would slow down.');
    expect(shortReason(row(2, 'Eb4', steps), now)).toBe('in steps');
    const once = stringRow({ verdict: 'slipping', slips: slips.slice(1), forecast: evenly(0) });
    expect(meaning(2, 'Eb4', once).plain).toBe('Down 8 c by 20:17, now on pitch. Creep makes no steps.');
    expect(shortReason(row(2, 'Eb4', once), now)).toBe('one step down');
  });

  test('a string that slides: the core’s own sentence', () => {
    const slide = stringRow({ verdict: 'slipping', why: 'sliding flat by about 9 c an hour and not slowing' });
    expect(meaning(2, 'Eb4', slide).plain).toBe('Sliding flat by about 9 c an hour and not slowing.');
  });

  test('an unheard string: what is expected while that can be told, and not a figure after days', () => {
    const turned = stringRow({ verdict: 'unheard', forecast: evenly(-2, 0, 4) }, { heard: [] });
    expect(meaning(1, 'A4', turned).plain).toBe('Not heard since its peg was turned. Expected 2 c below, give or take 4 c.');
    expect(shortReason(row(1, 'A4', turned), now)).toBe('turned 20:04');
    const daysAgo = stringRow({ verdict: 'unheard', forecast: evenly(0, 0, 900) }, { heard: [], movedAt: null, since: now - 9 * 86_400 });
    expect(meaning(1, 'A4', daysAgo).plain).toBe('Not heard since 16 November. Too long ago to tell where it is.');
    expect(shortReason(row(1, 'A4', daysAgo), now)).toBe('since 16 November');
  });

  test('a double course: which string leads, and where the other one is', () => {
    const second = stringRow({ forecast: evenly(-3) }, { string: 1 });
    const course = row(2, 'E4 E4', second, stringRow({ forecast: evenly(1) }));
    expect(shortReason(course, now)).toBe('second string: still');
    expect(said(meaningOf(course, facts).plain)).toBe('Now 3 c below. Almost still. First string 1 c above.');
  });
});

describe('the summary of a chart', () => {
  test('names course, verdict, the last peg move and the ends of what was heard', () => {
    expect(summaryOf(row(3, 'Bb3', stringRow()), now)).toBe(
      'Course 3, B♭3: cents from wanted against time. Holding. Its peg was last turned at 20:04. 2 readings: 5 cents below at 20:06, on pitch at 20:16.',
    );
  });

  test('says when there are no readings', () => {
    const silent = stringRow({ verdict: 'unheard' }, { heard: [], movedAt: null });
    expect(summaryOf(row(3, 'Bb3', silent), now)).toBe('Course 3, B♭3: cents from wanted against time. Unheard. No readings since.');
  });
});
