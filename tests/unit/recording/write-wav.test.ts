import { describe, expect, test } from 'vitest';
import * as fc from 'fast-check';
import { WaveFile } from 'wavefile';
import { readWav, writeWav } from '#shared/recording/index.ts';

const foreignSamples = (bytes: Uint8Array) => {
  const wav = new WaveFile(bytes);
  const samples = wav.getSamples(false) as unknown as Float64Array | Float64Array[];
  return { wav, channels: Array.isArray(samples) ? samples.map((channel) => [...channel]) : [[...samples]] };
};

const anyRecording = fc
  .record({
    rate: fc.integer({ min: 8000, max: 192_000 }),
    channelCount: fc.integer({ min: 1, max: 4 }),
    length: fc.integer({ min: 1, max: 50 }),
  })
  .chain(({ rate, channelCount, length }) =>
    fc
      .array(fc.float32Array({ minLength: length, maxLength: length, noNaN: true, noDefaultInfinity: true }), {
        minLength: channelCount,
        maxLength: channelCount,
      })
      .map((channels) => ({ sampleRateHertz: rate, channels })),
  );

describe('writing', () => {
  test('float32 comes back as the very same samples', () => {
    fc.assert(
      fc.property(anyRecording, (recording) => {
        expect(readWav(writeWav(recording, 'float32'))).toEqual(recording);
      }),
      { seed: 3, numRuns: 100 },
    );
  });

  test('16-bit comes back within half a step, limited to full scale, and a second time unchanged', () => {
    fc.assert(
      fc.property(anyRecording, (recording) => {
        const once = readWav(writeWav(recording, 'pcm16'));
        if ('failure' in once) throw new Error(once.failure.sentence);
        for (const [index, channel] of recording.channels.entries())
          channel.forEach((value, frame) => {
            const limited = Math.max(-1, Math.min(32767 / 32768, value));
            expect(Math.abs(once.channels[index]![frame]! - limited)).toBeLessThanOrEqual(0.5 / 32768);
          });
        expect(readWav(writeWav(once, 'pcm16'))).toEqual(once);
      }),
      { seed: 4, numRuns: 100 },
    );
  });

  test('another program reads the same float samples, rate and channels', () => {
    const recording = { sampleRateHertz: 48000, channels: [Float32Array.of(0, 0.5, -0.75), Float32Array.of(0.1, 1.5, -1)] };
    const { wav, channels } = foreignSamples(writeWav(recording, 'float32'));
    expect(wav.fmt).toMatchObject({
      audioFormat: 3,
      numChannels: 2,
      sampleRate: 48000,
      byteRate: 384_000,
      blockAlign: 8,
      bitsPerSample: 32,
    });
    expect(wav.fact).toMatchObject({ dwSampleLength: 3 });
    expect(channels).toEqual(recording.channels.map((channel) => [...channel]));
  });

  test('another program reads the same 16-bit integers', () => {
    const bytes = writeWav({ sampleRateHertz: 44100, channels: [Float32Array.of(0, 0.5, -1, 1, 3, -0.00001, 2 / 32768)] }, 'pcm16');
    const { wav, channels } = foreignSamples(bytes);
    expect(wav.fmt).toMatchObject({ audioFormat: 1, numChannels: 1, sampleRate: 44100, blockAlign: 2, bitsPerSample: 16 });
    expect(wav.chunkSize).toBe(bytes.length - 8);
    expect(channels).toEqual([[0, 16384, -32768, 32767, 32767, 0, 2]]);
  });

  const one = Float32Array.of(0);
  test.each([
    ['no channels', { sampleRateHertz: 44100, channels: [] }, /at least one channel/],
    ['channels of unequal length', { sampleRateHertz: 44100, channels: [one, new Float32Array(2)] }, /must have 1 samples; got 2/],
    ['a rate that is not whole', { sampleRateHertz: 44100.5, channels: [one] }, /got 44100\.5/],
    ['a rate of 0', { sampleRateHertz: 0, channels: [one] }, /got 0/],
    [
      'a sample that is not a number',
      { sampleRateHertz: 44100, channels: [Float32Array.of(0, Number.NaN)] },
      /got NaN in channel 1 at sample 1/,
    ],
  ])('%s is refused with the value', (_, recording, message) => {
    expect(() => writeWav(recording, 'pcm16')).toThrow(message);
  });
});
