import type { PitchEvent } from '#shared/pitch/index.ts';
import type { Level } from './level-meter.ts';

/**
 * How well a player is heard. `quiet`: nobody plays; `noisy`: nobody plays, and the room is never still; `too-quiet`: strings are heard, but from too
 * far away; `too-loud`: the input is cut off at full scale.
 */
export type HearingWord = 'hearing' | 'quiet' | 'noisy' | 'too-quiet' | 'too-loud';

/** What the word follows from; null where it has not happened yet. */
export type Hearing = {
  readonly frame: { readonly atSeconds: number; readonly levelDecibels: number } | null;
  readonly clippedAtSeconds: number | null;
  /** Since when the level has not once sunk to that of a quiet room. */
  readonly loudSinceSeconds: number | null;
};
export const nothingHeard: Hearing = { frame: null, clippedAtSeconds: null, loudSinceSeconds: null };

/** For how long a note, and a cut-off sound, count after they were last heard: a player looks up between plucks. */
const heardSeconds = 1.5;
/** Loudest moment of a note that is still too weak to be read at its end (own choice: 15 dB above what the tracker takes for silence). */
const weakDecibels = -57;
/** Peaks that a quiet room does not reach: noise of about −50 dBFS, 20 dB below a plucked string before a laptop (own choice). */
const noisyDecibels = -40;

/** Takes in a pitch event. A frame counts by the loudest of its note, so that a note may fade without a warning. */
export const hearPitch = (hearing: Hearing, event: PitchEvent): Hearing => {
  if (event.kind !== 'frame') return hearing;
  const before = hearing.frame && event.atSeconds - hearing.frame.atSeconds < heardSeconds ? hearing.frame.levelDecibels : -Infinity;
  return { ...hearing, frame: { atSeconds: event.atSeconds, levelDecibels: Math.max(before, event.levelDecibels) } };
};

/** Takes in a level of the channel that is read. */
export const hearLevel = (hearing: Hearing, level: Level, channel: number): Hearing => {
  const isClipped = level.clipped[channel] ?? level.clipped[0] ?? false;
  const peak = level.peaksDecibels[channel] ?? level.peaksDecibels[0] ?? null;
  const isLoud = peak !== null && peak > noisyDecibels;
  return {
    ...hearing,
    clippedAtSeconds: isClipped ? level.atSeconds : hearing.clippedAtSeconds,
    loudSinceSeconds: isLoud ? (hearing.loudSinceSeconds ?? level.atSeconds) : null,
  };
};

/** The word for now. `hearingWord(nothingHeard, 3)` → 'quiet'. */
export const hearingWord = ({ frame, clippedAtSeconds, loudSinceSeconds }: Hearing, nowSeconds: number): HearingWord => {
  if (clippedAtSeconds !== null && nowSeconds - clippedAtSeconds < heardSeconds) return 'too-loud';
  if (frame === null || nowSeconds - frame.atSeconds >= heardSeconds)
    return loudSinceSeconds !== null && nowSeconds - loudSinceSeconds >= heardSeconds ? 'noisy' : 'quiet';
  return frame.levelDecibels < weakDecibels ? 'too-quiet' : 'hearing';
};
