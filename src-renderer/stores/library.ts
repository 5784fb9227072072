import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Input, Output, RequestName } from '#shared/contract/index.ts';
import { useHost } from './host.tsx';

/** Reads of the library, each cached until the host says that it changed. */
type ReadName =
  | 'overview.read'
  | 'instruments.stringSets'
  | 'tunings.list'
  | 'songs.list'
  | 'settings.read'
  | 'library.status'
  | 'log.read'
  | 'log.remarks'
  | 'log.summary'
  | 'verdicts.read';

/** Asks for a part of the library; `data` is undefined until it is there. */
export function useLibrary<Name extends ReadName>(name: Name, input: Input<Name>, isEnabled = true) {
  const host = useHost();
  return useQuery<Output<Name>>({ queryKey: [name, input], queryFn: () => host.ask(name, input), enabled: isEnabled });
}

/**
 * A change to the library: call `mutate`; what depends on it is asked again through the host's push. What is to follow it follows, also where the
 * player has gone on to another screen meanwhile.
 */
export function useChange<Name extends Exclude<RequestName, ReadName>>(name: Name) {
  const host = useHost();
  const client = useQueryClient();
  const mutation = useMutation<Output<Name>, Error, Input<Name>>({
    mutationFn: (input) => host.ask(name, input),
    onSuccess: () => client.invalidateQueries(),
  });
  const { mutateAsync } = mutation;
  const mutate = (input: Input<Name>, { onSuccess }: { readonly onSuccess?: (output: Output<Name>) => void } = {}): void =>
    // What went wrong stands in `error`.
    void mutateAsync(input).then(onSuccess, () => undefined);
  return { ...mutation, mutate };
}
