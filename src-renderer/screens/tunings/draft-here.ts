import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { stateOf } from '../../stores/strings.ts';
import { type Draft, type Ground, readDraft } from './draft.ts';
import { type Here, hereOn } from './here.ts';

/** The tuning in a form as it is on the instrument in hand, named or not yet; null while it cannot be read or taken. */
export function draftHere(
  draft: Draft,
  ground: Ground,
  { overview, tunings, settings }: { readonly overview: Overview; readonly tunings: readonly Tuning[]; readonly settings: Settings },
): Here | null {
  const read = readDraft({ ...draft, name: draft.name.trim() === '' ? '…' : draft.name }, ground, 'draft');
  return 'problems' in read ? null : hereOn(read, { overview, settings, state: stateOf(overview, tunings, settings), isAtHome: false });
}
