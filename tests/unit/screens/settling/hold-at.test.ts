import { describe, expect, test } from 'vitest';
import { momentOf, proposedTime, retuneByWords, tonightWords } from '../../../../src-renderer/screens/settling/hold-at.ts';
import { nextTunings } from '../../../../src-renderer/screens/settling/next-tunings.ts';
import { instrumentOf, settings, tuningOf } from '../wren.ts';
import { clock, now } from './support.ts';

describe('the time to hold at', () => {
  test('is read as players write it, and lies ahead', () => {
    expect(momentOf('21:00', now)).toBe(clock(21, 0));
    expect(momentOf(' 2100 ', now)).toBe(clock(21, 0));
    expect(momentOf('20:24', now)).toBe(now);
    expect(momentOf('8.30', now)).toBe(clock(8, 30) + 86_400);
  });

  test('is null where it is no time of day', () => {
    for (const text of ['', '25:00', '20:61', 'later', '7']) expect(momentOf(text, now), text).toBeNull();
  });

  test('is proposed at a half hour, an hour or more ahead', () => {
    expect(proposedTime(now)).toBe('21:30');
    expect(proposedTime(clock(19, 30))).toBe('20:30');
  });
});

describe('by when to retune', () => {
  const holdAt = clock(22, 0);

  test('is a minute of the clock, never a later one than was worked out', () => {
    expect(retuneByWords({ kind: 'by', atSeconds: clock(20, 41) - 1 }, holdAt, now).strong).toBe('retune by 20:40.');
  });

  test('is just before where it holds at once', () => {
    expect(retuneByWords({ kind: 'by', atSeconds: holdAt }, holdAt, now).strong).toBe('retune just before:');
  });

  test('where it is too late, is from when it would hold', () => {
    const { strong, rest } = retuneByWords({ kind: 'too-late', holdsFromSeconds: clock(22, 20) }, holdAt, now);
    expect(strong + rest).toBe('it is too late: retuned now, it holds from about 22:20.');
    expect(retuneByWords({ kind: 'too-late', holdsFromSeconds: null }, holdAt, now).rest).toContain('30 days');
  });
});

test('what is better tonight comes first, then how it moves tomorrow either way', () => {
  const night = (moveCents: number) => ({ offCents: 0, moveCents, holdsInSeconds: 0 });
  const { strong, rest } = tonightWords({ leave: night(-14.2), home: night(0.4), better: 'home', why: '' });
  expect(strong + rest).toBe(
    'Take it home now. Home now, it moves less than 1 c in its first half hour tomorrow; left until then, about 14 c.',
  );
});

describe('where an instrument may go next', () => {
  const home = 'G4 C4 E4 A4';
  const open = tuningOf('Open C', 'G4 C4 E4 G4', home);
  const favourite = tuningOf('Drone', 'G4 C4 G4 A4', home, { favourite: true });
  const again = tuningOf('As at home', home, home);
  const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');

  test('at home it is the favourites first, and nothing that sounds like home', () => {
    expect(nextTunings(wren, [open, again, favourite], settings).map(({ words }) => words)).toEqual(['Drone', 'Open C']);
  });

  test('away from home it is home first', () => {
    const away = { ...wren, instrument: { ...wren.instrument, tuningId: open.id } };
    expect(nextTunings(away, [open, again, favourite], settings).map(({ words }) => words)).toEqual(['Home', 'Drone']);
  });
});
