import { QueryClient, QueryClientProvider, useQueryClient } from '@tanstack/react-query';
import { createContext, type ReactNode, useContext, useEffect } from 'react';
import type { Host } from '#shared/contract/index.ts';

const HostContext = createContext<Host | null>(null);

/** The host, for the stores. Screens ask the stores. */
export function useHost(): Host {
  const host = useContext(HostContext);
  if (host === null) throw new Error('useHost needs a HostProvider above it');
  return host;
}

/** Everything that the host keeps is asked again when it says that it changed, never before. */
const queries = new QueryClient({
  defaultOptions: { queries: { staleTime: Number.POSITIVE_INFINITY, retry: 1, refetchOnWindowFocus: false } },
});

export const HostProvider = ({ host, children }: { readonly host: Host; readonly children: ReactNode }) => (
  <HostContext value={host}>
    <QueryClientProvider client={queries}>
      <FollowChanges />
      {children}
    </QueryClientProvider>
  </HostContext>
);

/** What has to be asked again when a part of the library changed. Queries are named after their request. */
const dependants = {
  instruments: ['overview.read', 'verdicts.read', 'instruments.stringSets', 'library.status'],
  tunings: ['tunings.list', 'verdicts.read'],
  songs: ['songs.list'],
  log: ['overview.read', 'verdicts.read', 'log.read', 'log.remarks', 'log.summary'],
  settings: ['settings.read', 'verdicts.read'],
  library: ['library.status'],
} as const;

function FollowChanges() {
  const host = useHost();
  const client = useQueryClient();
  useEffect(
    () =>
      host.on('changed', ({ parts }) => {
        for (const name of new Set(parts.flatMap((part) => dependants[part]))) void client.invalidateQueries({ queryKey: [name] });
      }),
    [host, client],
  );
  return null;
}
