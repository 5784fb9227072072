import type { Host, Overview } from '#shared/contract/index.ts';

/**
 * An instrument as the library has it now: what the page was told last may be from before a retune that has just ended. As it was where it is no longer
 * there.
 */
export async function freshOverview(host: Host, overview: Overview): Promise<Overview> {
  const all = await host.ask('overview.read', {});
  return all.find(({ instrument }) => instrument.id === overview.instrument.id) ?? overview;
}
