import type { PitchFrame } from '#shared/pitch/index.ts';
import { describe, expect, test } from 'vitest';
import { hearingWord, hearLevel, hearPitch, nothingHeard } from '../../../src-renderer/audio/hearing.ts';
import type { Level } from '../../../src-renderer/audio/level-meter.ts';

const frame = (atSeconds: number, levelDecibels: number): PitchFrame => ({
  kind: 'frame',
  atSeconds,
  hertz: 440,
  sigmaCents: 0.1,
  others: [],
  levelDecibels,
  sincePluckSeconds: null,
  steady: true,
  driftCentsPerSecond: 0,
  inharmonicity: 0,
});
const level = (atSeconds: number, ...clipped: boolean[]): Level => ({ ...loudness(atSeconds, null), clipped });
const loudness = (atSeconds: number, peakDecibels: number | null): Level => ({
  atSeconds,
  clipped: [],
  peaksDecibels: [peakDecibels],
  zerosSeconds: [],
  droppedHops: 0,
});

describe('how well the player is heard', () => {
  test('nobody plays: quiet; a string sounds: hearing; a while after it has died away: quiet again', () => {
    expect(hearingWord(nothingHeard, 3)).toBe('quiet');
    const heard = hearPitch(nothingHeard, frame(3, -20));
    expect(hearingWord(heard, 3.1)).toBe('hearing');
    expect(hearingWord(heard, 4.6)).toBe('quiet');
  });

  test('refusals alone are not playing', () => {
    expect(hearingWord(hearPitch(nothingHeard, { kind: 'refusal', atSeconds: 3, reason: 'unclear' }), 3)).toBe('quiet');
  });

  test('a note that fades is not too quiet; one that never was louder is', () => {
    const fading = [-30, -45, -60, -68].reduce(
      (hearing, decibels, index) => hearPitch(hearing, frame(1 + index / 2, decibels)),
      nothingHeard,
    );
    expect(hearingWord(fading, 2.6)).toBe('hearing');
    const far = [-60, -64, -68].reduce((hearing, decibels, index) => hearPitch(hearing, frame(1 + index / 2, decibels)), nothingHeard);
    expect(hearingWord(far, 2.1)).toBe('too-quiet');
  });

  test('a loud note does not vouch for a weak one long after it', () => {
    expect(hearingWord(hearPitch(hearPitch(nothingHeard, frame(1, -20)), frame(9, -65)), 9)).toBe('too-quiet');
  });

  test('cut off on the channel that is read: too loud, for a while; on another channel: no matter', () => {
    const playing = hearPitch(nothingHeard, frame(1, -3));
    expect(hearingWord(hearLevel(playing, level(1, false, true), 1), 1.2)).toBe('too-loud');
    expect(hearingWord(hearLevel(playing, level(1, false, true), 0), 1.2)).toBe('hearing');
    expect(hearingWord(hearLevel(playing, level(1, true), 1), 1.2)).toBe('too-loud');
    expect(hearingWord(hearLevel(playing, level(1, true), 0), 2.6)).toBe('quiet');
  });

  test('a room that is never still is noisy, not quiet; one still moment, and it is a room in which something happens', () => {
    const steady = [0, 0.5, 1, 1.5, 2].reduce((hearing, at) => hearLevel(hearing, loudness(at, -30), 0), nothingHeard);
    expect(hearingWord(steady, 1)).toBe('quiet');
    expect(hearingWord(steady, 2)).toBe('noisy');
    expect(hearingWord(hearLevel(hearLevel(steady, loudness(2.1, -66), 0), loudness(2.2, -30), 0), 2.4)).toBe('quiet');
    expect(hearingWord(hearPitch(steady, frame(2, -20)), 2.1)).toBe('hearing');
  });

  test('the hiss of an input is a quiet room', () => {
    const hiss = [0, 1, 2, 3].reduce((hearing, at) => hearLevel(hearing, loudness(at, -62), 0), nothingHeard);
    expect(hearingWord(hiss, 3)).toBe('quiet');
  });
});
