import { carry, type OpenPitches, type Tuning, tuningPresets } from '#shared/tunings/index.ts';

/** The starter tunings for instruments that share the chord shapes of this home, as new rows of the library; `newId` gives each its id. */
export const starterTunings = (home: OpenPitches, newId: () => string): readonly Tuning[] =>
  tuningPresets
    .map(({ name, tags, pitches, home: writtenFor }) => ({
      name,
      tags: [...tags],
      courses: pitches.map((pitch) => ({ pitches: [pitch], offsetCents: 0 })),
      home: writtenFor.map((pitch) => [pitch]),
    }))
    .filter((preset) => carry(preset, home)?.sameShapes === true)
    .map((preset) => ({ ...preset, id: newId(), favourite: false, notes: '' }));
