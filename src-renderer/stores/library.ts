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

/** A change to the library: call `mutate`; what depends on it is asked again through the host's push. */
export function useChange<Name extends Exclude<RequestName, ReadName>>(name: Name) {
  const host = useHost();
  const client = useQueryClient();
  return useMutation<Output<Name>, Error, Input<Name>>({
    mutationFn: (input) => host.ask(name, input),
    onSuccess: () => client.invalidateQueries(),
  });
}
