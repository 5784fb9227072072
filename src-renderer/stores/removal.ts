import { useHost } from './host.tsx';
import { useChange } from './library.ts';
import { noteDone } from './undo.ts';

/** Taking a row out of the library, so that it can be brought back. Keep it above the list: the row is gone before the host has answered. */
export function useRemoval(part: 'instruments' | 'tunings') {
  const host = useHost();
  const remove = useChange(`${part}.remove`);
  return {
    /** Why the last removal did not work, in a sentence, or null. */
    problem: remove.error === null ? null : `Not removed. ${remove.error.message}`,
    remove: ({ id, name }: { readonly id: string; readonly name: string }): void =>
      remove.mutate({ id }, { onSuccess: () => noteDone(`Removed ${name}`, () => host.ask(`${part}.restore`, { id })) }),
  };
}
