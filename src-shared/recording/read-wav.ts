import type { Chunk } from './chunks.ts';
import { chunksOf, fourLetters } from './chunks.ts';
import type { Recording } from './recording.ts';
import type { SampleReader } from './wav-format.ts';
import { compressedNames, formatTag, sampleReader, subFormatTail } from './wav-format.ts';

export type ReadFailureCode =
  | 'empty'
  | 'not-wav'
  | 'no-format'
  | 'damaged-format'
  | 'unknown-encoding'
  | 'truncated'
  | 'no-samples'
  | 'not-numbers';
/** Why a file can't be read as a recording: a stable code and a sentence for the player. */
export type ReadFailure = { readonly failure: { readonly code: ReadFailureCode; readonly sentence: string } };

type Format = { readonly sampleRateHertz: number; readonly channelCount: number; readonly sample: SampleReader };

const fail = (code: ReadFailureCode, sentence: string): ReadFailure => ({ failure: { code, sentence } });

/**
 * Reads a WAV file: PCM of 8, 16, 24 or 32 bits and float of 32 or 64, plain or extensible, any number of channels; unknown chunks are skipped.
 * Integers are divided by half their range (16-bit: 32768). Anything else gives a failure with a code and a plain sentence; never throws.
 * `readWav(bytes)` → `{ sampleRateHertz: 44100, channels: [Float32Array(88200)] }` for two seconds of one channel.
 */
export const readWav = (bytes: Uint8Array): Recording | ReadFailure => {
  if (bytes.length === 0) return fail('empty', 'The file is empty.');
  const container = fourLetters(bytes, 0);
  if (container === 'RIFX' || container === 'RF64')
    return fail(
      'unknown-encoding',
      `This is a WAV file of the ${container} kind, which can't be read here. Save it as an ordinary WAV file.`,
    );
  if (container !== 'RIFF' || fourLetters(bytes, 8) !== 'WAVE')
    return fail('not-wav', 'This is not a WAV file. Other sound files have to be saved as WAV first.');

  const chunks = chunksOf(bytes);
  const formatChunk = chunks.find((chunk) => chunk.name === 'fmt ');
  const data = chunks.find((chunk) => chunk.name === 'data');
  if (!formatChunk) return fail('no-format', "The file doesn't say how its samples are stored, so it can't be read. It may be damaged.");
  const format = readFormat(bytes, formatChunk);
  if ('failure' in format) return format;
  if (!data) return fail('no-samples', 'The file holds no sound: it ends before the first sample.');
  if (data.start + data.claimedBytes > bytes.length)
    return fail(
      'truncated',
      `The file is cut off: it should hold ${data.claimedBytes} bytes of sound and has ${bytes.length - data.start}.`,
    );
  return readSamples(new DataView(bytes.buffer, bytes.byteOffset + data.start, data.claimedBytes), format);
};

const damaged = (what: string) => fail('damaged-format', `The description of the sound in this file is damaged: ${what}.`);

const readFormat = (bytes: Uint8Array, chunk: Chunk): Format | ReadFailure => {
  const available = Math.min(chunk.claimedBytes, bytes.length - chunk.start);
  if (available < 16) return damaged('it is cut off');
  const view = new DataView(bytes.buffer, bytes.byteOffset + chunk.start, available);
  const channelCount = view.getUint16(2, true);
  const sampleRateHertz = view.getUint32(4, true);
  const frameBytes = view.getUint16(12, true);
  const bits = view.getUint16(14, true);

  let tag = view.getUint16(0, true);
  if (tag === formatTag.extensible) {
    if (available < 40) return damaged('it is cut off');
    if (!subFormatTail.every((byte, index) => view.getUint8(26 + index) === byte))
      return fail('unknown-encoding', 'The sound in this file is stored in a way that is not known here. Save it as plain PCM.');
    tag = view.getUint16(24, true);
  }
  const sample = sampleReader(tag, bits);
  if (!sample) {
    const name = compressedNames.get(tag);
    return fail(
      'unknown-encoding',
      name
        ? `The sound in this file is compressed (${name}). Save it as plain PCM, 16 or 24 bits.`
        : `The sound in this file is stored in a way that is not known here (kind ${tag}, ${bits} bits). Save it as plain PCM, 16 or 24 bits.`,
    );
  }
  if (channelCount === 0) return damaged('it has no channels');
  if (sampleRateHertz === 0) return damaged('its sample rate is 0');
  if (frameBytes !== channelCount * sample.bytes)
    return damaged(`${channelCount} channels of ${bits} bits do not fill ${frameBytes} bytes`);
  return { sampleRateHertz, channelCount, sample };
};

const readSamples = (view: DataView, { sampleRateHertz, channelCount, sample }: Format): Recording | ReadFailure => {
  const frameBytes = channelCount * sample.bytes;
  // A last frame that is not whole is left out.
  const length = Math.floor(view.byteLength / frameBytes);
  if (length === 0) return fail('no-samples', 'The file holds no sound: it has no samples.');
  const channels = Array.from({ length: channelCount }, () => new Float32Array(length));
  for (const [index, channel] of channels.entries()) {
    for (let frame = 0; frame < length; frame += 1) {
      const value = sample.read(view, frame * frameBytes + index * sample.bytes);
      if (!Number.isFinite(value)) return fail('not-numbers', 'The file holds samples that are not numbers. It is damaged.');
      channel[frame] = value;
    }
  }
  return { sampleRateHertz, channels };
};
