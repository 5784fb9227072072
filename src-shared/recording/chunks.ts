/** One chunk of a RIFF file: its four letters, where its content starts, and how many bytes it claims to hold. */
export type Chunk = { readonly name: string; readonly start: number; readonly claimedBytes: number };

/** Four ASCII letters at `offset`; fewer at the end of the file. */
export const fourLetters = (bytes: Uint8Array, offset: number): string => String.fromCodePoint(...bytes.subarray(offset, offset + 4));

/** A size that programs write when they can't go back to fill it in (writing to a pipe; common practice): "up to the end of the file". */
const unknownSize = 0xffffffff;

/** The chunks of a RIFF file in order; a chunk of odd size is followed by one padding byte. The last one may claim more than the file holds. */
export const chunksOf = (bytes: Uint8Array): Chunk[] => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const chunks: Chunk[] = [];
  for (let at = 12; at + 8 <= bytes.length;) {
    const start = at + 8;
    const size = view.getUint32(at + 4, true);
    const claimedBytes = size === unknownSize ? bytes.length - start : size;
    chunks.push({ name: fourLetters(bytes, at), start, claimedBytes });
    at = start + claimedBytes + (claimedBytes % 2);
  }
  return chunks;
};
