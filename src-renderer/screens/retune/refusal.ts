import type { PitchEvent, RefusalReason } from '#shared/pitch/index.ts';

/** What has sounded without giving a pitch, and since when; null while a string is heard, or nothing. */
export type Refused = { readonly reason: RefusalReason; readonly sinceSeconds: number; readonly forSeconds: number } | null;

type Sentence = { readonly words: string; readonly fromSeconds: number; readonly untilSeconds: number };

/**
 * Sentences for what keeps a pitch from being read, and when they are shown, in seconds of it: a string that fades is unclear for a moment too, and
 * a room that is never still is no news.
 */
const sentences: Partial<Record<RefusalReason, Sentence>> = {
  hum: {
    words: 'Only a hum is heard: look for a loose cable or a power supply near the input.',
    fromSeconds: 1.5,
    untilSeconds: Number.POSITIVE_INFINITY,
  },
  unclear: { words: 'No string can be made out in this sound: pluck one by itself.', fromSeconds: 3, untilSeconds: 8 },
};

/** A hum that is not made out for so long, for something else in the room, is still that hum, in seconds. */
const humGapSeconds = 0.5;

/** Takes in one pitch event. A string that is heard, and silence, end what was refused; a sound is unclear only once something was plucked. */
export function refusedAfter(refused: Refused, event: PitchEvent): Refused {
  if (event.kind === 'frame' || event.reason === 'silence') return null;
  if (event.reason === 'unclear' && refused === null) return null;
  if (refused?.reason === 'hum' && event.atSeconds - refused.sinceSeconds - refused.forSeconds < humGapSeconds && event.reason !== 'hum')
    return refused;
  if (refused?.reason === event.reason) return { ...refused, forSeconds: event.atSeconds - refused.sinceSeconds };
  return { reason: event.reason, sinceSeconds: event.atSeconds, forSeconds: 0 };
}

/** What to do about a sound that gives no pitch, while it is news; else null. */
export function refusalWords(refused: Refused): string | null {
  const sentence = refused === null ? undefined : sentences[refused.reason];
  if (refused === null || sentence === undefined) return null;
  return refused.forSeconds >= sentence.fromSeconds && refused.forSeconds < sentence.untilSeconds ? sentence.words : null;
}
