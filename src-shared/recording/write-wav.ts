import type { Recording } from './recording.ts';
import { formatTag } from './wav-format.ts';

/** How samples are stored on writing. `float32` loses nothing; `pcm16` rounds to 1/32768 and limits to full scale. */
export type WavEncoding = 'float32' | 'pcm16';

/**
 * Writes a recording as the bytes of a WAV file. Samples beyond full scale are kept by `float32` and limited by `pcm16`.
 * Throws RangeError when there are no channels or unequal ones, when the rate is not a whole number of 1…4294967295 hertz, when a sample is not finite,
 * or when the result would pass 4 GiB. `writeWav({ sampleRateHertz: 44100, channels: [tone] }, 'pcm16')` → `Uint8Array`.
 */
export const writeWav = (recording: Recording, encoding: WavEncoding): Uint8Array<ArrayBuffer> => {
  const { sampleRateHertz, channels } = recording;
  const length = lengthOf(recording);
  const sampleBytes = encoding === 'float32' ? 4 : 2;
  const frameBytes = channels.length * sampleBytes;
  // Every encoding but PCM carries a size field in `fmt ` and a `fact` chunk with the number of frames.
  const formatBytes = encoding === 'float32' ? 18 : 16;
  const factBytes = encoding === 'float32' ? 12 : 0;
  const dataBytes = length * frameBytes;
  const total = 12 + 8 + formatBytes + factBytes + 8 + dataBytes;
  if (total > 0xffffffff) throw new RangeError(`a WAV file must stay below 4 GiB; this one would take ${total} bytes`);

  const bytes = new Uint8Array(total);
  const view = new DataView(bytes.buffer);
  let at = 0;
  const letters = (text: string) => {
    for (const letter of text) view.setUint8(at++, letter.codePointAt(0) ?? 0);
  };
  const word = (value: number) => {
    view.setUint16(at, value, true);
    at += 2;
  };
  const long = (value: number) => {
    view.setUint32(at, value, true);
    at += 4;
  };

  letters('RIFF');
  long(total - 8);
  letters('WAVEfmt ');
  long(formatBytes);
  word(encoding === 'float32' ? formatTag.float : formatTag.pcm);
  word(channels.length);
  long(sampleRateHertz);
  long(sampleRateHertz * frameBytes);
  word(frameBytes);
  word(sampleBytes * 8);
  if (encoding === 'float32') {
    word(0);
    letters('fact');
    long(4);
    long(length);
  }
  letters('data');
  long(dataBytes);
  for (const [index, channel] of channels.entries()) {
    channel.forEach((value, frame) => {
      if (!Number.isFinite(value)) throw new RangeError(`samples must be finite; got ${value} in channel ${index + 1} at sample ${frame}`);
      const offset = at + frame * frameBytes + index * sampleBytes;
      if (encoding === 'float32') view.setFloat32(offset, value, true);
      else view.setInt16(offset, Math.max(-32768, Math.min(32767, Math.round(value * 32768))), true);
    });
  }
  return bytes;
};

const lengthOf = ({ sampleRateHertz, channels }: Recording): number => {
  if (!Number.isInteger(sampleRateHertz) || sampleRateHertz < 1 || sampleRateHertz > 0xffffffff)
    throw new RangeError(`the sample rate must be a whole number of 1…4294967295 hertz; got ${sampleRateHertz}`);
  const length = channels[0]?.length;
  if (length === undefined) throw new RangeError('a recording must have at least one channel; got none');
  const odd = channels.find((channel) => channel.length !== length);
  if (odd) throw new RangeError(`all channels must have ${length} samples; got ${odd.length}`);
  return length;
};
