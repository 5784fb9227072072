import type { Input, Overview, StringState } from '#shared/contract/index.ts';
import type { Reading, StringChange } from '#shared/log/index.ts';
import { useHost } from './host.tsx';
import { useChange, useLibrary } from './library.ts';
import { noteDone } from './undo.ts';

// What the player says of an instrument and its strings. Rows of the log are never changed: taking something back adds a row that says so.

const stamp = () => ({ id: crypto.randomUUID(), at: Date.now() });

/** Notes that stand, strings changed by themselves, warnings seen, and until when the reminder is put off. */
export const useRemarks = (overview: Overview | null) =>
  useLibrary('log.remarks', { id: overview?.instrument.id ?? 'none' }, overview !== null);

/** Writes a note about an instrument; one that `replaces` an earlier one stands in its place, with no words it takes it back. */
export function useNote() {
  const host = useHost();
  const append = useChange('log.append');
  return {
    error: append.error,
    isPending: append.isPending,
    write: (instrumentId: string, words: string, replaces: string | null = null): void => {
      const note = { ...stamp(), instrumentId, words, replaces };
      append.mutate(
        { notes: [note] },
        {
          onSuccess: () => {
            if (replaces === null)
              noteDone('Added a note', () => host.ask('log.append', { notes: [{ ...note, ...stamp(), words: '', replaces: note.id }] }));
          },
        },
      );
    },
  };
}

/** Notes that the player has seen the warning about a string; it stays seen until the string slips anew. */
export function useAcknowledge() {
  const append = useChange('log.append');
  return (stringSetId: string, { course, string, warning }: Pick<StringState, 'course' | 'string' | 'warning'>): void => {
    if (warning !== null) append.mutate({ warningsSeen: [{ ...stamp(), stringSetId, course, string, kind: warning.kind }] });
  };
}

/** Puts the reminder of a string set off until a moment in epoch milliseconds; one that is past calls it back. */
export function useSnooze() {
  const append = useChange('log.append');
  return (stringSetId: string, until: number): void => append.mutate({ snoozes: [{ ...stamp(), stringSetId, until }] });
}

const marked = (reading: Reading, isWrong: boolean) => ({ corrections: [{ ...stamp(), readingId: reading.id, isWrong }] });

/** Marks a reading as wrong, or as right after all: verdicts and charts then do without it. It can be taken back. */
export function useMarkReading() {
  const host = useHost();
  const append = useChange('log.append');
  return (reading: Reading, isWrong: boolean): void =>
    append.mutate(marked(reading, isWrong), {
      onSuccess: () =>
        noteDone(isWrong ? 'Marked a reading as wrong' : 'Took a reading back in', () => host.ask('log.append', marked(reading, !isWrong))),
    });
}

const corrected = (stringChangeId: string, isWrong: boolean) => ({ changeCorrections: [{ ...stamp(), stringChangeId, isWrong }] });

/** Writes down that one string was changed by itself; it begins a history of its own. It can be taken back. */
export function useChangeString() {
  const host = useHost();
  const change = useChange('log.changeString');
  return {
    error: change.error,
    isPending: change.isPending,
    change: (row: Omit<Input<'log.changeString'>, 'id'>, onSaved: () => void = () => undefined): void => {
      const id = crypto.randomUUID();
      change.mutate(
        { ...row, id },
        {
          onSuccess: () => {
            noteDone(row.words, () => host.ask('log.append', corrected(id, true)));
            onSaved();
          },
        },
      );
    },
  };
}

/** Takes an earlier string change back: the string has its history again, and the figures from before the change. It can be undone. */
export function useTakeBackChange() {
  const host = useHost();
  const append = useChange('log.append');
  return ({ id, words }: Pick<StringChange, 'id' | 'words'>): void =>
    append.mutate(corrected(id, true), {
      onSuccess: () => noteDone(`Took back: ${words}`, () => host.ask('log.append', corrected(id, false))),
    });
}
