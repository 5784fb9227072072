import type { Instrument, StringSet } from '#shared/instruments/index.ts';
import type { Song } from '#shared/sets/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';

// What makes two rows the same thing: all that a player wrote, none of the ids, and nothing that is only how matters stand now
// (which tuning an instrument is in, what it was last heard through, whether a tuning is a favourite).

/** A string set, as a text that is alike for alike ones. */
export const stringSetContent = ({ name, fittedAt, courses }: StringSet): string => contentOf([name, fittedAt, courses]);

/** An instrument with the strings fitted to it, as a text that is alike for alike ones. */
export const instrumentContent = (
  { id: _id, stringSetId: _set, tuningId: _tuning, inputLabel: _label, inputChannel: _channel, ...written }: Instrument,
  fitted: StringSet,
): string => contentOf([written, stringSetContent(fitted)]);

/** A tuning, as a text that is alike for alike ones. */
export const tuningContent = ({ id: _id, favourite: _favourite, tags, ...written }: Tuning): string =>
  contentOf([written, [...tags].sort()]);

/** A song, as a text that is alike for alike ones; the tuning and the instrument that it names are given by what they are called in the library. */
export const songContent = ({ id: _id, ...written }: Song): string => contentOf(written);

/** JSON with the members of every object in order, so that two objects written in another order are alike. */
function contentOf(value: unknown): string {
  return JSON.stringify(value, (_, member: unknown) =>
    typeof member === 'object' && member !== null && !Array.isArray(member)
      ? Object.fromEntries(Object.entries(member).sort(([a], [b]) => (a < b ? -1 : 1)))
      : member,
  );
}
