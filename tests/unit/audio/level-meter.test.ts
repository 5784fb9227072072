import { describe, expect, test } from 'vitest';
import type { Level } from '../../../src-renderer/audio/level-meter.ts';
import { createLevelMeter, isSilent } from '../../../src-renderer/audio/level-meter.ts';

const hopSeconds = 512 / 44100;

/** Levels from so many seconds of hops that all have the same peaks. */
const levels = (meter: ReturnType<typeof createLevelMeter>, peaks: readonly number[], seconds: number): Level[] =>
  Array.from({ length: Math.round(seconds / hopSeconds) }, (_, hop) => meter.push(peaks, hopSeconds, hop * hopSeconds, 0)).filter(
    (level) => level !== null,
  );

describe('the level bar', () => {
  test('hears about twenty times a second from each channel its peak in decibels of full scale', () => {
    const second = levels(createLevelMeter(), [0.5, 0.001], 1);
    expect(second.length).toBeGreaterThanOrEqual(18);
    expect(second.length).toBeLessThanOrEqual(22);
    expect(second[0]!.peaksDecibels[0]).toBeCloseTo(-6.0206, 4);
    expect(second[0]!.peaksDecibels[1]).toBeCloseTo(-60, 4);
  });

  test('shows the loudest hop since the last report, and forgets it afterwards', () => {
    const meter = createLevelMeter();
    meter.push([0.9], hopSeconds, 0, 0);
    const [first, second] = levels(meter, [0.1], 0.12);
    expect([first, second].map((level) => level!.peaksDecibels[0]!.toFixed(1))).toEqual(['-0.9', '-20.0']);
  });

  test('digital silence has no decibels', () => {
    expect(levels(createLevelMeter(), [0], 0.1)[0]!.peaksDecibels).toEqual([null]);
  });

  test('full scale of a 16-bit converter counts as clipped, 0.1 dB below it does not', () => {
    expect(levels(createLevelMeter(), [32767 / 32768, 10 ** (-0.1 / 20)], 0.1)[0]!.clipped).toEqual([true, false]);
  });
});

const silentAfter = (peaks: readonly number[], seconds: number, channel = 0) =>
  isSilent(levels(createLevelMeter(), peaks, seconds).at(-1)!, channel);

describe('an input that sends nothing', () => {
  test('is called silent after three seconds of exact zeros, not before', () => {
    expect(silentAfter([0], 2.9)).toBe(false);
    expect(silentAfter([0], 3.1)).toBe(true);
  });

  test('the faintest noise of a working input keeps it from being called silent', () => {
    expect(silentAfter([2 ** -23], 10)).toBe(false);
    const meter = createLevelMeter();
    levels(meter, [0], 2.5);
    levels(meter, [2 ** -15], 0.1);
    expect(isSilent(levels(meter, [0], 2.5).at(-1)!, 0)).toBe(false);
  });

  test('counts for the chosen channel; without such a channel for the first, as the sound itself', () => {
    expect(silentAfter([0.1, 0], 4, 0)).toBe(false);
    expect(silentAfter([0.1, 0], 4, 1)).toBe(true);
    expect(silentAfter([0], 4, 1)).toBe(true);
  });

  test('no channel at all is silence too', () => {
    expect(silentAfter([], 4)).toBe(true);
  });
});
