import { useState } from 'react';
import { useChange } from './library.ts';

type Row = { readonly id: string; readonly name: string };

/** Taking a row out of the library, and the way back. Keep it above the list: the row itself is gone before the host has answered. */
export function useRemoval(part: 'instruments' | 'tunings') {
  const [removed, setRemoved] = useState<Row | null>(null);
  const remove = useChange(`${part}.remove`);
  const restore = useChange(`${part}.restore`);
  return {
    /** What was removed last, as long as it was not brought back. */
    removed,
    /** Why the last step did not work, in a sentence, or null. */
    problem: remove.error === null ? (restore.error?.message ?? null) : `Not removed. ${remove.error.message}`,
    remove: ({ id, name }: Row): void => remove.mutate({ id }, { onSuccess: () => setRemoved({ id, name }) }),
    undo: (): void => {
      if (removed !== null) restore.mutate({ id: removed.id }, { onSuccess: () => setRemoved(null) });
    },
  };
}
