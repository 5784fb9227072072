import type { Forecast, Policy, Slip, Verdict } from './types.ts';

// The sentence that goes with a verdict. Numbers first, durations only: the room knows no time of day.

/** Seconds in words: `inWords(750)` → 'about 12 minutes'. */
export function inWords(seconds: number): string {
  if (seconds < 90) return 'about a minute';
  if (seconds < 5400) return `about ${Math.round(seconds / 60)} minutes`;
  if (seconds < 36 * 3600) return `about ${Math.round(seconds / 3600)} hours`;
  return `about ${Math.round(seconds / 86_400)} days`;
}

/** `about 3 c`, or `less than 1 c`. */
export const sizeOf = (cents: number): string => (Math.abs(cents) < 0.95 ? 'less than 1 c' : `about ${Math.round(Math.abs(cents))} c`);
const sideOf = (cents: number): string => (cents > 0 ? 'sharp' : 'flat');
const placeOf = (cents: number): string => (Math.abs(cents) < 0.5 ? 'on pitch' : `${Math.round(Math.abs(cents))} c ${sideOf(cents)}`);

/** Everything the sentence may speak of. */
export interface Findings {
  readonly verdict: Verdict;
  readonly policy: Policy;
  /** Whether its peg was turned in this retune. */
  readonly isTurned: boolean;
  readonly now: Forecast;
  readonly drift: Forecast;
  readonly holdsInSeconds: number | null;
  readonly slip: Slip | null;
  readonly slipCount: number;
  readonly keepsSlipping: boolean;
  readonly slideCentsPerHour: number | null;
}

/** The reason for a verdict in one plain sentence. */
export function why(findings: Findings): string {
  const { verdict, policy, isTurned, now, drift, holdsInSeconds, slip, slipCount, keepsSlipping, slideCentsPerHour } = findings;
  const ahead = nextOf(policy.horizonSeconds);
  const size = `${sizeOf(drift.cents)} in ${ahead}`;
  const movement = Math.abs(drift.cents) < 0.95 ? size : `${sizeOf(drift.cents)} ${sideOf(drift.cents)} in ${ahead}`;
  if (verdict === 'unheard')
    return `not heard ${isTurned ? 'since it was turned' : 'yet'}; expected to move ${movement}, give or take ${Math.ceil((drift.high - drift.low) / 2)} c`;
  if (verdict === 'slipping') {
    if (slideCentsPerHour !== null) return `sliding flat by about ${Math.round(slideCentsPerHour)} c an hour and not slowing`;
    const step = `${sizeOf(slip?.cents ?? 0)} ${sideOf(slip?.cents ?? 0)}`;
    if (keepsSlipping) return `keeps slipping: ${slipCount} slips within three retunes, the last of ${step}; now ${placeOf(now.cents)}`;
    return `slipped ${step} between two readings; now ${placeOf(now.cents)}`;
  }
  // Nothing slips now, but it did in the retunes before.
  const before = keepsSlipping ? `; but it slipped ${slipCount} times within three retunes` : '';
  if (verdict === 'holding') return `${placeOf(now.cents)}; moves ${movement}${before}`;
  if (holdsInSeconds === 0) return `nearly still, but ${placeOf(now.cents)}: a touch-up now would hold; moves ${movement}${before}`;
  const holds =
    holdsInSeconds === null ? 'not steady within 30 days' : `steady within ±${policy.toleranceCents} c in ${inWords(holdsInSeconds)}`;
  return `still creeping ${sideOf(drift.cents)}, ${size}; now ${placeOf(now.cents)}, ${holds}${before}`;
}

const nextOf = (seconds: number): string => (seconds < 90 ? 'the next minute' : inWords(seconds).replace('about ', 'the next '));
