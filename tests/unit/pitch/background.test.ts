import { describe, expect, test } from 'vitest';
import { createBackground } from '#shared/pitch/background.ts';
import { createSpectrometer } from '#shared/pitch/spectrum.ts';

const rateHertz = 12_000;
const learntSamples = 3_072;

/** A string of three partials: its sound at a sample, counted from its pluck. */
const stringAt = (hertz: number, index: number) =>
  index < 0
    ? 0
    : Math.exp(-index / rateHertz) * [1, 2, 3].reduce((sum, n) => sum + Math.sin((2 * Math.PI * hertz * n * index) / rateHertz + n) / n, 0);

type Course = { ringsFor: number; silentFor: number; usable: number; thenPluckedHertz?: number };
/**
 * A string of 220 Hz is learnt, rings on for a while and is then damped, another is plucked right after it was learnt; whether it is said to
 * ring on, in the newest samples.
 */
const ringsOn = ({ ringsFor, silentFor, usable, thenPluckedHertz }: Course) => {
  const background = createBackground(rateHertz, 16_384);
  const samples = Float64Array.from({ length: learntSamples + ringsFor + silentFor }, (_, index) => {
    const other = thenPluckedHertz === undefined ? 0 : 2 * stringAt(thenPluckedHertz, index - learntSamples);
    return other + (index >= learntSamples + ringsFor ? 0 : stringAt(220, index));
  });
  for (let end = 1; end <= samples.length; end++) {
    background.append(samples, end);
    if (end !== learntSamples) continue;
    const spectrum = createSpectrometer(8_192, rateHertz).spectrumOf(samples, 0, learntSamples);
    background.learn(samples, 0, learntSamples, spectrum, () => true);
  }
  return background.targetRingsOn(usable);
};

describe('a string that rang before a pluck', () => {
  test('rings on as foretold, however long that is', () => {
    expect(ringsOn({ ringsFor: 1_000, silentFor: 0, usable: 1_000 })).toBe(true);
    expect(ringsOn({ ringsFor: 13_000, silentFor: 0, usable: 13_000 })).toBe(true);
  });

  test('does not once it is damped: what counts is the newest sound', () => {
    expect(ringsOn({ ringsFor: 0, silentFor: 1_000, usable: 1_000 })).toBe(false);
    expect(ringsOn({ ringsFor: 9_000, silentFor: 6_000, usable: 15_000 })).toBe(false);
  });

  test('rings on under another that shares a partial with it, but not where it was plucked anew itself', () => {
    // 3 · 220 Hz is nearly 2 · 329.8 Hz.
    expect(ringsOn({ ringsFor: 1_000, silentFor: 0, usable: 1_000, thenPluckedHertz: 329.8 })).toBe(true);
    expect(ringsOn({ ringsFor: 1_000, silentFor: 0, usable: 1_000, thenPluckedHertz: 220 })).toBe(false);
  });

  test('is not judged by a few milliseconds', () => {
    expect(ringsOn({ ringsFor: 300, silentFor: 0, usable: 300 })).toBeNull();
  });
});
