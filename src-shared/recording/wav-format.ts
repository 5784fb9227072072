// The parts of the WAVE format that reading and writing share. Sources:
// - "Multimedia Programming Interface and Data Specifications 1.0", IBM and Microsoft, August 1991 (RIFF, WAVE, PCM; 8-bit samples are unsigned);
// - Microsoft's "New Multimedia Data Types and Data Techniques", 1994 (`fact` and the size field for everything but PCM);
// - Microsoft Learn, "Extensible Wave-Format Descriptors" and WAVEFORMATEXTENSIBLE in mmreg.h (container bits, sub-format GUIDs;
//   samples narrower than their container are left-justified, so the container alone decides the scale).

/** Format tags of mmreg.h that this room reads. */
export const formatTag = { pcm: 0x0001, float: 0x0003, extensible: 0xfffe } as const;

/** Names for tags that are refused, so that the sentence can say what the file holds. */
export const compressedNames: ReadonlyMap<number, string> = new Map([
  [0x0002, 'ADPCM'],
  [0x0006, 'A-law'],
  [0x0007, 'µ-law'],
  [0x0011, 'IMA ADPCM'],
  [0x0031, 'GSM 6.10'],
  [0x0050, 'MPEG'],
  [0x0055, 'MP3'],
  [0x00ff, 'AAC'],
]);

/** A sub-format GUID is the format tag (two bytes) followed by these fourteen (KSDATAFORMAT_SUBTYPE_… in ksmedia.h). */
export const subFormatTail: readonly number[] = [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71];

/** How one sample of an encoding is stored and read; the value is scaled to −1…1. */
export type SampleReader = { readonly bytes: number; readonly read: (view: DataView, offset: number) => number };

const readers: ReadonlyMap<string, SampleReader> = new Map<string, SampleReader>([
  ['pcm 8', { bytes: 1, read: (view, at) => (view.getUint8(at) - 128) / 2 ** 7 }],
  ['pcm 16', { bytes: 2, read: (view, at) => view.getInt16(at, true) / 2 ** 15 }],
  ['pcm 24', { bytes: 3, read: (view, at) => (view.getUint8(at) | (view.getInt16(at + 1, true) << 8)) / 2 ** 23 }],
  ['pcm 32', { bytes: 4, read: (view, at) => view.getInt32(at, true) / 2 ** 31 }],
  ['float 32', { bytes: 4, read: (view, at) => view.getFloat32(at, true) }],
  ['float 64', { bytes: 8, read: (view, at) => view.getFloat64(at, true) }],
]);

/** The reader for a format tag and sample size in bits, or null where this room has none. `sampleReader(0x0001, 16)?.bytes` → 2. */
export const sampleReader = (tag: number, bits: number): SampleReader | null => {
  const family = tag === formatTag.pcm ? 'pcm' : tag === formatTag.float ? 'float' : null;
  return (family && readers.get(`${family} ${bits}`)) ?? null;
};
