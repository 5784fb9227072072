import type { HeardReference } from '#shared/hearing/index.ts';
import { figure } from '../../ui/words.ts';

const refusals = {
  'too-short': 'Let it ring for a second or so.',
  unsteady: 'That did not stand still: strike one key by itself, and let it ring.',
  'another-note': 'That was another note than the one named above.',
  'out-of-range': 'That makes an A4 outside 400 to 480 Hz. Is it the note named above, in the right octave?',
} as const;

/** What was heard of a reference, in a sentence; `note` as it is written. `A4 is at 441.3 Hz, sure to within 0.2.` */
export function referenceWords(heard: HeardReference | null, note: string): string {
  if (heard === null) return `Play ${note} by itself, and let it ring.`;
  if (heard.kind === 'refused') return refusals[heard.reason];
  return `A4 is at ${figure(heard.a4Hertz, 1)} Hz, sure to within ${figure(Math.max(0.1, 2 * heard.sigmaHertz), 1)}.`;
}
