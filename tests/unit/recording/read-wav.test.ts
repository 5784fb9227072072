import { describe, expect, test } from 'vitest';
import * as fc from 'fast-check';
import { WaveFile } from 'wavefile';
import { readWav, secondsOf } from '#shared/recording/index.ts';
import { chunk, extensible, file, format } from './support.ts';

const mono16 = { tag: 1, channelCount: 1, sampleRateHertz: 44100, bits: 16 };
const stereo24 = { tag: 1, channelCount: 2, sampleRateHertz: 48000, bits: 24 };

const read = (bytes: Uint8Array) => {
  const result = readWav(bytes);
  if ('failure' in result) throw new Error(result.failure.sentence);
  return result;
};
const refusal = (bytes: Uint8Array) => {
  const result = readWav(bytes);
  if (!('failure' in result)) throw new Error('the file was read');
  return result.failure;
};

/** Writes integers with the `wavefile` package: an implementation that shares no code with ours. */
const foreign = (depth: string, channels: readonly (readonly number[])[], rate = 44100) => {
  const wav = new WaveFile();
  wav.fromScratch(channels.length, rate, depth, channels.length === 1 ? [...channels[0]!] : channels.map((channel) => [...channel]));
  return wav.toBuffer();
};

describe('a file written by another program', () => {
  const depths = [
    { depth: '8', minimum: 0, maximum: 255, zero: 128, half: 128 },
    { depth: '16', minimum: -(2 ** 15), maximum: 2 ** 15 - 1, zero: 0, half: 2 ** 15 },
    { depth: '24', minimum: -(2 ** 23), maximum: 2 ** 23 - 1, zero: 0, half: 2 ** 23 },
    { depth: '32', minimum: -(2 ** 31), maximum: 2 ** 31 - 1, zero: 0, half: 2 ** 31 },
  ];
  test.each(depths)('$depth-bit PCM reads as the integers over half their range', ({ depth, minimum, maximum, zero, half }) => {
    const sample = fc.oneof(fc.constantFrom(minimum, maximum, zero, zero + 1, zero - 1), fc.integer({ min: minimum, max: maximum }));
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3 }), fc.array(sample, { minLength: 1, maxLength: 40 }), (channelCount, samples) => {
        const channels = Array.from({ length: channelCount }, (_, index) => samples.map((value) => (index === 1 ? zero : value)));
        const recording = read(foreign(depth, channels, 22050));
        expect(recording.sampleRateHertz).toBe(22050);
        expect(recording.channels.map((channel) => [...channel])).toEqual(
          channels.map((channel) => channel.map((value) => Math.fround((value - zero) / half))),
        );
      }),
      { seed: 1, numRuns: 60 },
    );
  });

  test.each(['32f', '64'])('float %s reads as the same numbers, also beyond full scale', (depth) => {
    const values = [0, 1, -1, 0.1, -0.25, 1.75, 1e-9];
    expect([...read(foreign(depth, [values])).channels[0]!]).toEqual(values.map(Math.fround));
  });

  test('says how long it sounds', () => {
    expect(secondsOf(read(foreign('16', [Array.from({ length: 11025 }, () => 5)])))).toBe(0.25);
  });
});

describe('the layout of the file', () => {
  const samples = [0, 64, 0, 192];
  const plain = read(file(chunk('fmt ', format(mono16)), chunk('data', samples)));

  test('unknown chunks of odd and even size are stepped over, before and after the sound', () => {
    const bytes = file(
      chunk('JUNK', [1, 2, 3]),
      chunk('fmt ', format(mono16)),
      chunk('LIST', [7, 7]),
      chunk('data', samples),
      chunk('id3 ', [9]),
    );
    expect(read(bytes)).toEqual(plain);
    expect([...plain.channels[0]!]).toEqual([0.5, -0.5]);
  });

  test('an extensible description reads like the plain one, and 20 valid bits in a container of 24 keep the scale of the container', () => {
    expect(read(file(chunk('fmt ', extensible(mono16)), chunk('data', samples)))).toEqual(plain);
    const frame = [0x10, 0, 0x40, 0xf0, 0xff, 0xbf];
    const { channels } = read(file(chunk('fmt ', extensible(stereo24, 20)), chunk('data', frame)));
    expect(channels.map((channel) => channel[0])).toEqual([Math.fround(0x400010 / 2 ** 23), Math.fround((0xbffff0 - 2 ** 24) / 2 ** 23)]);
  });

  test('bytes in the middle of a larger buffer are read from where they stand', () => {
    const bytes = file(chunk('fmt ', format(mono16)), chunk('data', samples));
    const larger = new Uint8Array(bytes.length + 7);
    larger.set(bytes, 5);
    expect(read(larger.subarray(5, 5 + bytes.length))).toEqual(plain);
  });

  test('a size left open by a program that wrote to a pipe means "to the end"', () => {
    expect(read(file(chunk('fmt ', format(mono16)), chunk('data', samples, 0xffffffff)))).toEqual(plain);
  });

  test('a last frame that is not whole is left out', () => {
    expect(read(file(chunk('fmt ', format(mono16)), chunk('data', [...samples, 1])))).toEqual(plain);
  });
});

describe('what is refused', () => {
  const data = chunk('data', [0, 0, 0, 0]);
  const cases: [string, string, Uint8Array, RegExp][] = [
    ['an empty file', 'empty', new Uint8Array(0), /is empty/],
    ['another kind of file', 'not-wav', new TextEncoder().encode('OggS and so on, at some length'), /not a WAV file/],
    ['a few bytes', 'not-wav', new TextEncoder().encode('RIFF'), /not a WAV file/],
    ['another RIFF file', 'not-wav', new TextEncoder().encode('RIFF____AVI and so on'), /not a WAV file/],
    ['a big-endian WAV', 'unknown-encoding', new TextEncoder().encode('RIFX____WAVE'), /RIFX/],
    ['a 64-bit WAV', 'unknown-encoding', new TextEncoder().encode('RF64____WAVE'), /RF64/],
    ['no description', 'no-format', file(data), /doesn't say how/],
    ['a short description', 'damaged-format', file(chunk('fmt ', format(mono16).slice(0, 12)), data), /cut off/],
    ['a short extensible description', 'damaged-format', file(chunk('fmt ', extensible(mono16).slice(0, 24)), data), /cut off/],
    ['no channels', 'damaged-format', file(chunk('fmt ', format({ ...mono16, channelCount: 0 })), data), /no channels/],
    ['a rate of 0', 'damaged-format', file(chunk('fmt ', format({ ...mono16, sampleRateHertz: 0 })), data), /sample rate is 0/],
    [
      'a frame size that does not fit',
      'damaged-format',
      file(chunk('fmt ', format({ ...mono16, frameBytes: 3 })), data),
      /do not fill 3 bytes/,
    ],
    ['MP3 in a WAV', 'unknown-encoding', file(chunk('fmt ', format({ ...mono16, tag: 0x55 })), data), /compressed \(MP3\)/],
    ['A-law', 'unknown-encoding', file(chunk('fmt ', format({ ...mono16, tag: 6, bits: 8 })), data), /compressed \(A-law\)/],
    ['an encoding without a name here', 'unknown-encoding', file(chunk('fmt ', format({ ...mono16, tag: 0x1234 })), data), /kind 4660/],
    ['12-bit PCM', 'unknown-encoding', file(chunk('fmt ', format({ ...mono16, bits: 12, frameBytes: 2 })), data), /12 bits/],
    [
      'an unknown sub-format',
      'unknown-encoding',
      file(
        chunk(
          'fmt ',
          extensible(
            mono16,
            16,
            Array.from({ length: 14 }, () => 1),
          ),
        ),
        data,
      ),
      /not known/,
    ],
    ['a file without sound', 'no-samples', file(chunk('fmt ', format(mono16))), /no sound/],
    ['a sound of no length', 'no-samples', file(chunk('fmt ', format(mono16)), chunk('data', [])), /no samples/],
    [
      'a sound that is cut off',
      'truncated',
      file(chunk('fmt ', format(mono16)), chunk('data', [0, 0], 400)),
      /should hold 400 bytes of sound and has 2/,
    ],
    [
      'samples that are not numbers',
      'not-numbers',
      file(chunk('fmt ', format({ ...mono16, tag: 3, bits: 32 })), chunk('data', [0, 0, 192, 127])),
      /not numbers/,
    ],
  ];
  test.each(cases)('%s: %s', (_, code, bytes, sentence) => {
    expect(refusal(bytes)).toEqual({ code, sentence: expect.stringMatching(sentence) });
  });

  test('a file cut anywhere is read or refused with a sentence, never thrown at the player', () => {
    const whole = file(
      chunk('LIST', [1]),
      chunk('fmt ', extensible(stereo24)),
      chunk(
        'data',
        Array.from({ length: 60 }, (_, index) => index),
      ),
    );
    const codes = Array.from({ length: whole.length }, (_, length) => refusal(whole.subarray(0, length)).code);
    expect([...new Set(codes)]).toEqual(['empty', 'not-wav', 'no-format', 'damaged-format', 'no-samples', 'truncated']);
  });

  test('random bytes after an honest beginning never throw', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 120 }), (noise) => {
        const bytes = Uint8Array.from([...file(chunk('fmt ', format(mono16))), ...noise]);
        const result = readWav(bytes);
        if (!('failure' in result)) expect(result.channels.every((channel) => channel.length > 0)).toBe(true);
      }),
      { seed: 2, numRuns: 300 },
    );
  });
});
