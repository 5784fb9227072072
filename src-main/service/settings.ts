import type { Settings } from '#shared/contract/index.ts';
import { type Library, putSettings, readSettings as readRow } from '../library/index.ts';

/** What holds until the player sets something else. A4 at 440 Hz is ISO 16; ±3 cents is common practice. */
const defaults: Settings = {
  referenceHertz: 440,
  toleranceCents: 3,
  theme: 'system',
  soundCues: true,
  microphoneLabel: null,
  noteLanguage: 'english',
  speaks: false,
};

/** The player's settings, or the defaults where nothing was ever set. */
export async function readSettings(library: Library): Promise<Settings> {
  return (await readRow(library.rows)) ?? defaults;
}

/** Writes the player's settings. */
export async function saveSettings(library: Library, settings: Settings): Promise<Settings> {
  await putSettings(library.rows, settings);
  return settings;
}
