import { carry, type OpenPitches, type Tuning, tuningPresets } from '#shared/tunings/index.ts';

/** The starter tunings that an instrument with this home can take, as new rows of the library; `newId` gives each its id. */
export const starterTunings = (home: OpenPitches, newId: () => string): readonly Tuning[] =>
  tuningPresets
    .map(({ name, pitches, home: writtenFor }) => ({
      name,
      courses: pitches.map((pitch) => ({ pitches: [pitch], offsetCents: 0 })),
      home: writtenFor.map((pitch) => [pitch]),
    }))
    .filter((preset) => carry(preset, home) !== null)
    .map((preset) => ({ ...preset, id: newId(), favourite: false, tags: [], notes: '' }));
