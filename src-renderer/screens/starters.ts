import { carry, type OpenPitches, sameTuning, type Tuning, tuningPresets } from '#shared/tunings/index.ts';
import { chordText } from '../ui/note-names.ts';

/**
 * The starter tunings for instruments that share the chord shapes of this home, as new rows of the library, those left out that stand there already.
 * An open tuning is named by the chord that it makes on this home: what is open C on a soprano is open G on a baritone. `newId` gives each its id.
 */
export const starterTunings = (home: OpenPitches, newId: () => string, library: readonly Tuning[] = []): readonly Tuning[] =>
  tuningPresets.flatMap(({ name, tags, pitches, home: writtenFor }): Tuning[] => {
    const written = { courses: pitches.map((pitch) => ({ pitches: [pitch] })), home: writtenFor.map((pitch) => [pitch]) };
    const carried = carry(written, home);
    if (carried?.sameShapes !== true) return [];
    const tuning: Tuning = {
      id: newId(),
      name: nameOn(name, carried.pitches),
      tags: [...tags],
      courses: carried.pitches.map((strings) => ({ pitches: [...strings], offsetCents: 0 })),
      home: home.map((strings) => [...strings]),
      favourite: false,
      notes: '',
    };
    return library.some((one) => sameTuning(one, tuning)) ? [] : [tuning];
  });

/** `Open C` where that is what the courses make; on a baritone `Open G`. */
function nameOn(name: string, pitches: OpenPitches): string {
  const chord = name.startsWith('Open ') ? chordText(pitches.flat()) : null;
  return chord === null ? name : `Open ${chord.replace(/ major$/u, '')}`;
}
