import type { ListeningSnapshot } from '../../stores/session.ts';

/** What is wrong with the input, in a sentence, and whether trying again helps. */
export type Trouble = { readonly sentence: string; readonly canRetry: boolean };

/** Why nothing can be heard; null while the input is open or being opened. */
export function troubleOf(snapshot: ListeningSnapshot | null): Trouble | null {
  if (snapshot === null || snapshot.state.kind === 'open' || snapshot.state.kind === 'asking') return null;
  return { sentence: snapshot.state.sentence, canRetry: snapshot.state.remedy === 'retry' };
}

const hints = {
  'too-quiet': 'Too quiet: pluck harder or come closer.',
  'too-loud': 'Too loud: the input is cut off. Turn it down or move away.',
} as const;

/** How the player is heard badly, or what spoils the input; null where nothing does. */
export function hintOf(snapshot: ListeningSnapshot | null): string | null {
  const hearing = snapshot?.hearing ?? null;
  if (hearing === 'too-quiet' || hearing === 'too-loud') return hints[hearing];
  return snapshot?.input?.advice[0] ?? null;
}
