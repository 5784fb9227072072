import type { Assessment, Forecast } from '../../../../src-shared/settling/index.ts';
import { parsePitches } from '../../../../src-shared/music/index.ts';
import type { Row, StringRow } from '../../../../src-renderer/screens/settling/rows.ts';

/** Wednesday 25 November 2026, 20:24 by the clock of this computer, in seconds of the epoch. */
export const now = new Date(2026, 10, 25, 20, 24).getTime() / 1000;
export const minutes = (count: number): number => count * 60;
/** A moment of that evening. */
export const clock = (hour: number, minute: number): number => new Date(2026, 10, 25, hour, minute).getTime() / 1000;

/** A forecast that moves evenly: cents now, and cents per minute; its band half as wide as given. */
export const evenly =
  (centsNow: number, perMinute = 0, half = 1) =>
  (seconds: number): Forecast => {
    const cents = centsNow + (perMinute * (seconds - now)) / 60;
    return { cents, low: cents - half, high: cents + half };
  };

export const assessment = (given: Partial<Assessment> = {}): Assessment => ({
  verdict: 'holding',
  forecast: evenly(0),
  holdsFromSeconds: now,
  slips: [],
  keepsSlipping: false,
  nextCheckSeconds: null,
  why: '',
  driftCents: 0,
  insideTolerance: true,
  ...given,
});

export const stringRow = (given: Partial<Assessment> = {}, others: Partial<StringRow> = {}): StringRow => {
  const history = others.history ?? {
    moves: [{ atSeconds: clock(20, 4), cents: -200 }],
    readings: [
      { atSeconds: clock(20, 6), cents: -5, sigmaCents: 0.4 },
      { atSeconds: clock(20, 16), cents: 0, sigmaCents: 0.4 },
    ],
    past: [],
  };
  return {
    string: 0,
    assessment: assessment(given),
    history,
    movedAt: clock(20, 4),
    since: clock(20, 4),
    heard: history.readings,
    ...others,
  };
};

/** A course of an instrument. */
export function row(number: number, pitch: string, first: StringRow, ...others: readonly StringRow[]): Row {
  const pitches = parsePitches(pitch);
  if ('notAPitch' in pitches) throw new RangeError(pitches.notAPitch);
  return {
    course: 4 - number,
    number,
    pitches: [...pitches],
    verdict: first.assessment.verdict,
    strings: [first, ...others],
    gaugeMillimetres: 0.7,
    otherTurns: [],
  };
}
