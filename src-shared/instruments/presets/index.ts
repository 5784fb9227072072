import type { StringSet } from '../instrument.ts';
import { guitars } from './guitar.ts';
import type { InstrumentPreset } from './preset.ts';
import { ukuleles } from './ukulele.ts';

export type { InstrumentPreset } from './preset.ts';

/** Every instrument that a player can start from, ukuleles first. */
export const instrumentPresets: readonly InstrumentPreset[] = [...ukuleles, ...guitars];

/** The preset of that id, or null. */
export const presetById = (id: string): InstrumentPreset | null => instrumentPresets.find((preset) => preset.id === id) ?? null;

/** A string set as the preset has it, for an instrument of the player's. */
export const stringSetFromPreset = (preset: InstrumentPreset, row: Omit<StringSet, 'courses'>): StringSet => ({
  ...row,
  courses: preset.courses.map(({ strings, home }) => ({ strings: [...strings], home: [...home] })),
});
