import type { PitchEvent, RefusalReason } from '#shared/pitch/index.ts';

/** What has sounded without giving a pitch, and since when; null while a string is heard, or nothing. */
export type Refused = { readonly reason: RefusalReason; readonly sinceSeconds: number; readonly forSeconds: number } | null;

/** Sentences for what keeps a pitch from being read, and after how many seconds of it they are shown: a string that fades is unclear for a moment too. */
const sentences: Partial<Record<RefusalReason, { readonly words: string; readonly afterSeconds: number }>> = {
  hum: { words: 'Only a hum is heard: look for a loose cable or a power supply near the input.', afterSeconds: 1.5 },
  'two sounds': { words: 'Two strings sound at once: damp the others.', afterSeconds: 1.5 },
  unclear: { words: 'No string can be made out in this sound: pluck one by itself.', afterSeconds: 3 },
};

/** Takes in one pitch event. A string that is heard, silence and a pluck end what was refused. */
export function refusedAfter(refused: Refused, event: PitchEvent): Refused {
  if (event.kind === 'frame' || sentences[event.reason] === undefined) return null;
  if (refused === null || refused.reason !== event.reason) return { reason: event.reason, sinceSeconds: event.atSeconds, forSeconds: 0 };
  return { ...refused, forSeconds: event.atSeconds - refused.sinceSeconds };
}

/** What to do about a sound that gives no pitch, once it has gone on for a while; null before. */
export function refusalWords(refused: Refused): string | null {
  const sentence = refused === null ? undefined : sentences[refused.reason];
  return refused === null || sentence === undefined || refused.forSeconds < sentence.afterSeconds ? null : sentence.words;
}
