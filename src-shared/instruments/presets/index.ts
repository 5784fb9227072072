import type { StringSet } from '../instrument.ts';
import { banjos } from './banjo.ts';
import { basses } from './bass.ts';
import { bouzoukis } from './bouzouki.ts';
import { charangos } from './charango.ts';
import { cuatros } from './cuatro.ts';
import { guitars } from './guitar.ts';
import { mandolins } from './mandolin.ts';
import type { InstrumentPreset } from './preset.ts';
import { smallGuitars } from './small-guitar.ts';
import { ukuleles } from './ukulele.ts';

export type { InstrumentPreset } from './preset.ts';

/** Every instrument that a player can start from, ukuleles first. */
export const instrumentPresets: readonly InstrumentPreset[] = [
  ...ukuleles,
  ...guitars,
  ...basses,
  ...mandolins,
  ...banjos,
  ...charangos,
  ...smallGuitars,
  ...cuatros,
  ...bouzoukis,
];

/** The preset of that id, or null. */
export const presetById = (id: string): InstrumentPreset | null => instrumentPresets.find((preset) => preset.id === id) ?? null;

/** A string set as the preset has it, for an instrument of the player's. */
export const stringSetFromPreset = (preset: InstrumentPreset, row: Omit<StringSet, 'courses'>): StringSet => ({
  ...row,
  courses: preset.courses.map((course) => ({ ...course, strings: [...course.strings], home: [...course.home] })),
});
