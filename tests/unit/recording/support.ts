const asciiBytes = (text: string) => Array.from(text, (letter) => letter.codePointAt(0) ?? 0);
const little = (value: number, count: number) => Array.from({ length: count }, (_, index) => Math.floor(value / 256 ** index) % 256);

/** A chunk as its bytes, with the padding byte after an odd content; `claimed` overrides the size that it states. */
export const chunk = (name: string, content: readonly number[], claimed = content.length): number[] => [
  ...asciiBytes(name),
  ...little(claimed, 4),
  ...content,
  ...(content.length % 2 ? [0] : []),
];

/** A RIFF/WAVE file of the given chunks. */
export const file = (...chunks: number[][]): Uint8Array => {
  const body = [...asciiBytes('WAVE'), ...chunks.flat()];
  return Uint8Array.from([...asciiBytes('RIFF'), ...little(body.length, 4), ...body]);
};

export type FormatFields = { tag: number; channelCount: number; sampleRateHertz: number; bits: number; frameBytes?: number };

/** The sixteen bytes of a plain format description. */
export const format = ({ tag, channelCount, sampleRateHertz, bits, frameBytes = channelCount * (bits / 8) }: FormatFields): number[] => [
  ...little(tag, 2),
  ...little(channelCount, 2),
  ...little(sampleRateHertz, 4),
  ...little(sampleRateHertz * frameBytes, 4),
  ...little(frameBytes, 2),
  ...little(bits, 2),
];

/** The forty bytes of an extensible one, around a sub-format tag. */
export const extensible = (
  fields: FormatFields,
  validBits = fields.bits,
  guidTail = [0, 0, 0, 0, 16, 0, 128, 0, 0, 170, 0, 56, 155, 113],
): number[] => [
  ...format({ ...fields, tag: 0xfffe }),
  ...little(22, 2),
  ...little(validBits, 2),
  ...little(0, 4),
  ...little(fields.tag, 2),
  ...guidTail,
];
