import { useEffect, useState } from 'react';
import { onPitch } from '../../stores/session.ts';
import { type Refused, refusalWords, refusedAfter } from './refusal.ts';

/** Why what sounds gives no pitch, in a sentence; null while a string is heard, or nothing. It costs a render only when the sentence changes. */
export function useRefusal(): string | null {
  const [sentence, setSentence] = useState<string | null>(null);
  useEffect(() => {
    let refused: Refused = null;
    return onPitch((event) => {
      refused = refusedAfter(refused, event);
      setSentence(refusalWords(refused));
    });
  }, []);
  return sentence;
}
