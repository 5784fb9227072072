import { describe, expect, test } from 'vitest';
import { pluckSound } from '#shared/simulation/sound/index.ts';
import type { PitchEvent } from '#shared/pitch/index.ts';
import { createHopReader } from '../../../src-renderer/audio/hop-reader.ts';

const sampleRateHertz = 48000;
const hopSamples = 512;

/** A tracker that answers each block with one event at the middle of that block, and remembers what was done to it. */
const standIn = () => {
  const made: { hint: unknown; expected: unknown[]; samples: number }[] = [];
  const createTracker = ({ hint }: { hint: unknown }) => {
    const record = { hint, expected: [] as unknown[], samples: 0 };
    made.push(record);
    return {
      push: (samples: Float32Array): PitchEvent[] => {
        record.samples += samples.length;
        return [{ kind: 'refusal', atSeconds: (record.samples - samples.length / 2) / sampleRateHertz, reason: 'silence' }];
      },
      expect: (expected: unknown) => void record.expected.push(expected),
      reset: () => {},
    };
  };
  return { made, createTracker };
};

const hop = (index: number) => ({ firstSample: index * hopSamples, samples: new Float32Array(hopSamples), peaks: [0.1] });
const middle = (index: number) => ((index + 0.5) * hopSamples) / sampleRateHertz;

const reading = (startsAtSeconds = 0) => {
  const { made, createTracker } = standIn();
  const hint = { hertz: [440], asked: 0 };
  const reader = createHopReader({ sampleRateHertz, startsAtSeconds, hint, createTracker });
  const times = (...indices: number[]) => indices.flatMap((index) => reader.push(hop(index)).events.map(({ atSeconds }) => atSeconds));
  return { made, reader, times, hint };
};

describe('times', () => {
  test('are those of the session, also when listening starts in the middle of an audio clock', () => {
    const { times } = reading(100);
    const [first, second] = times(50, 51);
    expect(first).toBeCloseTo(100 + middle(50), 9);
    expect(second).toBeCloseTo(100 + middle(51), 9);
  });

  test('jump ahead when the audio clock had stopped, and reading starts afresh', () => {
    const { times, reader, made } = reading();
    times(0, 1);
    reader.setClock(7);
    expect(times(2)[0]).toBeCloseTo(7 + middle(2), 9);
    expect(made).toHaveLength(2);
  });

  test('a clock that has not moved disturbs nothing', () => {
    const { times, reader, made } = reading(3);
    times(0);
    reader.setClock(3);
    times(1);
    expect(made).toHaveLength(1);
  });
});

describe('our own sound', () => {
  test('is not read, and what comes after is read afresh at the right time', () => {
    const { times, reader, made } = reading();
    times(0);
    reader.gate(3 * hopSamples + 1);
    expect(times(1, 2, 3)).toEqual([]);
    expect(times(4)[0]).toBeCloseTo(middle(4), 9);
    expect(made.map(({ samples }) => samples)).toEqual([hopSamples, hopSamples]);
  });

  test('a short gate does not end a long one', () => {
    const { times, reader } = reading();
    reader.gate(4 * hopSamples);
    reader.gate(hopSamples);
    expect(times(1, 2, 3)).toEqual([]);
  });

  test('the level bar goes on meanwhile', () => {
    const { reader } = reading();
    reader.gate(100 * hopSamples);
    const levels = Array.from({ length: 20 }, (_, index) => reader.push(hop(index)).level).filter((level) => level !== null);
    expect(levels.length).toBeGreaterThan(2);
  });
});

describe('lost hops', () => {
  test('are counted, and reading starts afresh behind the gap at the right time', () => {
    const { times, reader, made } = reading();
    times(0, 1);
    expect(times(5)[0]).toBeCloseTo(middle(5), 9);
    expect(made).toHaveLength(2);
    const level = Array.from({ length: 8 }, (_, index) => reader.push(hop(6 + index)).level).find((report) => report !== null);
    expect(level?.droppedHops).toBe(3);
  });
});

describe('hints', () => {
  test('reach the reading in progress and the ones that start later', () => {
    const { times, reader, made, hint } = reading();
    times(0);
    const other = { hertz: [392, 262], asked: null };
    reader.expect(other);
    reader.reset();
    times(1);
    expect(made.map((tracker) => tracker.hint)).toEqual([hint, other]);
    expect(made[0]!.expected).toEqual([other]);
  });
});

/** A string plucked within the last second, hop by hop. */
const plucked = pluckSound({ hertz: 440, sampleRateHertz, seconds: 1.2, seed: 7 }).samples;
const pluckedAt = Math.round(sampleRateHertz * 0.6);
const tone = (index: number) => ({
  ...hop(index),
  samples: Float32Array.from({ length: hopSamples }, (_, at) => plucked[index * hopSamples + at - pluckedAt] ?? 0),
});

describe('a strum check', () => {
  test('reads the wanted strings from the sound just heard', () => {
    const { reader } = reading();
    for (let index = 0; index < 120; index += 1) reader.push(tone(index));
    const heard = reader.readStrum([[440]], 1)?.[0]?.[0];
    if (!heard || 'refusal' in heard) throw new Error('not heard');
    expect(Math.abs(1200 * Math.log2(heard.hertz / 440))).toBeLessThan(0.5);
  });

  test('has nothing to read when our own sound has just played', () => {
    const { reader } = reading();
    for (let index = 0; index < 120; index += 1) reader.push(tone(index));
    reader.gate(122 * hopSamples);
    for (let index = 120; index < 126; index += 1) reader.push(tone(index));
    expect(reader.readStrum([[440]], 1)).toBeNull();
  });
});
