import { describe, expect, test } from 'vitest';
import { pluckSound } from '#shared/simulation/sound/index.ts';
import type { PitchEvent } from '#shared/pitch/index.ts';
import { createHopReader } from '../../../src-renderer/audio/hop-reader.ts';

const sampleRateHertz = 48000;
const hopSamples = 512;

/** Trackers that answer each block with one event at the middle of that block, and remember what was done to them. */
const standIn = () => {
  const made: { hint: unknown; rate: number; expected: unknown[]; samples: number; resets: unknown[] }[] = [];
  const createTracker = ({ hint, sampleRateHertz: rate }: { hint: unknown; sampleRateHertz: number }) => {
    const record = { hint, rate, expected: [] as unknown[], samples: 0, resets: [] as unknown[] };
    made.push(record);
    return {
      push: (samples: Float32Array): PitchEvent[] => {
        record.samples += samples.length;
        return [{ kind: 'refusal', atSeconds: (record.samples - samples.length / 2) / rate, reason: 'silence' }];
      },
      expect: (expected: unknown) => void record.expected.push(expected),
      reset: (how: unknown) => {
        record.resets.push(how);
        record.samples = 0;
      },
    };
  };
  return { made, createTracker };
};

const hop = (index: number, rate = sampleRateHertz) => ({
  firstSample: index * hopSamples,
  sampleRateHertz: rate,
  samples: new Float32Array(hopSamples),
  peaks: [0.1],
});
const middle = (index: number) => ((index + 0.5) * hopSamples) / sampleRateHertz;

const reading = (startsAtSeconds = 0) => {
  const { made, createTracker } = standIn();
  const hint = { hertz: [440], asked: 0 };
  const reader = createHopReader({ startsAtSeconds, hint, createTracker });
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
    expect(made[0]?.resets).toEqual([{ keepStiffness: true }]);
  });

  test('a clock that has not moved disturbs nothing', () => {
    const { times, reader, made } = reading(3);
    times(0);
    reader.setClock(3);
    times(1);
    expect(made[0]?.resets).toEqual([]);
  });
});

describe('our own sound', () => {
  test('is not read, and what comes after is read afresh at the right time', () => {
    const { times, reader, made } = reading();
    times(0);
    reader.gate(3 * hopSamples + 1);
    expect(times(1, 2, 3)).toEqual([]);
    expect(times(4)[0]).toBeCloseTo(middle(4), 9);
    expect(made.map(({ samples, resets }) => [samples, resets])).toEqual([[hopSamples, [{ keepStiffness: true }]]]);
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
    expect(made[0]?.resets).toEqual([{ keepStiffness: true }]);
    const level = Array.from({ length: 8 }, (_, index) => reader.push(hop(6 + index)).level).find((report) => report !== null);
    expect(level?.droppedHops).toBe(3);
  });
});

describe('another sample rate while listening', () => {
  test('builds the reading anew and goes on on the clock of the session, samples counted anew or not', () => {
    for (const next of [0, 2, 700]) {
      const { times, reader, made } = reading(20);
      times(0, 1);
      const [event] = reader.push(hop(next, 96_000)).events;
      expect(event?.atSeconds).toBeCloseTo(20 + (2 * hopSamples) / sampleRateHertz + hopSamples / 2 / 96_000, 9);
      expect(made.map(({ rate, samples }) => [rate, samples])).toEqual([
        [sampleRateHertz, 2 * hopSamples],
        [96_000, hopSamples],
      ]);
    }
  });

  test('loses no hop and keeps a gate that is in force for as long as it was asked for', () => {
    const { times, reader } = reading();
    times(0);
    reader.gate(5 * hopSamples);
    const later = Array.from({ length: 12 }, (_, index) => reader.push(hop(index, 2 * sampleRateHertz)));
    // Four hops of the old rate are eight of twice as many samples a second.
    expect(later.map(({ events }) => events.length)).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1]);
    expect(later.findLast(({ level }) => level !== null)?.level?.droppedHops).toBe(0);
  });

  test('shows no wrong pitch: a string that goes on is the same string', () => {
    const reader = createHopReader({ startsAtSeconds: 0, hint: null });
    const sound = (rate: number) =>
      pluckSound({ hertz: 329.628, sampleRateHertz: rate, seconds: 2, seed: 9, pluckedAtSeconds: 0.2 }).samples;
    const hopsOf = (rate: number, fromSeconds: number, toSeconds: number) => {
      const samples = sound(rate);
      return Array.from({ length: Math.floor(((toSeconds - fromSeconds) * rate) / hopSamples) }, (_, index) => {
        const first = Math.round(fromSeconds * rate) + index * hopSamples;
        return { firstSample: index * hopSamples, sampleRateHertz: rate, samples: samples.slice(first, first + hopSamples), peaks: [0.1] };
      });
    };
    const events = [...hopsOf(44_100, 0, 0.8), ...hopsOf(96_000, 0.8, 1.4), ...hopsOf(48_000, 1.4, 2)].flatMap(
      (one) => reader.push(one).events,
    );
    const frames = events.flatMap((event) => (event.kind === 'frame' ? [event] : []));
    expect(frames.filter(({ atSeconds }) => atSeconds > 1 && atSeconds < 1.4).length).toBeGreaterThan(5);
    expect(frames.filter(({ atSeconds }) => atSeconds > 1.6).length).toBeGreaterThan(5);
    for (const { hertz } of frames) expect(Math.abs(1200 * Math.log2(hertz / 329.628))).toBeLessThan(1);
  });
});

describe('the rates of sound cards', () => {
  test.each([44_100, 48_000, 88_200, 96_000])('%d samples a second: a string reads within a twentieth of a cent', (rate) => {
    const reader = createHopReader({ startsAtSeconds: 0, hint: null });
    const { samples } = pluckSound({ hertz: 261.626, sampleRateHertz: rate, seconds: 1.2, seed: 11, pluckedAtSeconds: 0.2 });
    const last = Array.from({ length: Math.floor(samples.length / hopSamples) }, (_, index) => {
      const firstSample = index * hopSamples;
      return reader.push({
        firstSample,
        sampleRateHertz: rate,
        samples: samples.slice(firstSample, firstSample + hopSamples),
        peaks: [0.1],
      });
    })
      .flatMap(({ events }) => events)
      .findLast((event) => event.kind === 'frame');
    if (last?.kind !== 'frame') throw new Error('not heard');
    expect(Math.abs(1200 * Math.log2(last.hertz / 261.626))).toBeLessThan(0.05);
    expect(last.atSeconds).toBeCloseTo(1.2, 1);
  });
});

describe('a reset', () => {
  test('asked for by the page forgets the strings as well', () => {
    const { times, reader, made } = reading();
    times(0);
    reader.reset();
    expect(times(1)[0]).toBeCloseTo(middle(1), 9);
    expect(made[0]?.resets).toEqual([{ keepStiffness: false }]);
  });
});

describe('hints', () => {
  test('reach the reading in progress and the one at another rate', () => {
    const { times, reader, made, hint } = reading();
    times(0);
    const other = { hertz: [392, 262], asked: null };
    reader.expect(other);
    reader.push(hop(1, 96_000));
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
