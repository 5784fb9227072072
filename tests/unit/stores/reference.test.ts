import { describe, expect, test } from 'vitest';
import type { PitchEvent } from '#shared/pitch/index.ts';
import { midi } from '#shared/units/index.ts';
import { referenceWords } from '../../../src-renderer/screens/settings/reference-words.ts';
import { hearReference, type TakingReference } from '../../../src-renderer/stores/reference.ts';

/** What is made of notes that sound one after the other, each for so many seconds. */
function heard(note: number, ...sounds: readonly { readonly hertz: number; readonly seconds: number }[]): TakingReference {
  let now: TakingReference = { note: midi(note), frames: [], heard: null };
  let at = 0;
  for (const { hertz, seconds } of sounds) {
    for (let since = 0.1; since < seconds; since += 1 / 30) {
      const frame = { atSeconds: at + since, hertz, sigmaCents: 0.2, steady: true, sincePluckSeconds: since } as const;
      now = hearReference(now, { kind: 'frame', others: [], levelDecibels: -20, driftCentsPerSecond: 0, inharmonicity: 0, ...frame });
    }
    at += seconds;
  }
  return now;
}
const said = (now: TakingReference): string => referenceWords(now.heard, 'A4');

describe('a reference pitch from a piano', () => {
  test('is A4 in hertz, with how sure it is', () => {
    expect(said(heard(69, { hertz: 441.3, seconds: 1.5 }))).toMatch(/^A4 is at 441\.3 Hz, sure to within 0\.\d\.$/u);
  });

  test('is asked for by name, and has to ring for a while', () => {
    expect(said(heard(69))).toBe('Play A4 by itself, and let it ring.');
    expect(said(heard(69, { hertz: 441.3, seconds: 0.3 }))).toBe('Let it ring for a second or so.');
  });

  test('is refused outside 400 to 480 Hz, and where another note was played', () => {
    expect(said(heard(69, { hertz: 398, seconds: 1 }))).toContain('outside 400 to 480 Hz');
    expect(said(heard(69, { hertz: 523.3, seconds: 1 }))).toContain('another note');
  });

  test('stays when the note has died away, and while the next one begins', () => {
    const now = heard(69, { hertz: 441.3, seconds: 1.5 }, { hertz: 441.9, seconds: 0.3 });
    const silence: PitchEvent = { kind: 'refusal', atSeconds: 9, reason: 'silence' };
    expect(said(hearReference(now, silence))).toContain('441.3 Hz');
  });

  test('is of the next note from its first frame on, though frames were lost between the two', () => {
    const first = heard(69, { hertz: 441.3, seconds: 0.2 });
    const sound = { hertz: 445, sigmaCents: 0.2, steady: true, others: [], levelDecibels: -20, driftCentsPerSecond: 0, inharmonicity: 0 };
    let now = first;
    for (let since = 0.5; since < 1.3; since += 1 / 30)
      now = hearReference(now, { kind: 'frame', atSeconds: 2 + since, sincePluckSeconds: since, ...sound });
    expect(now.frames.every(({ hertz }) => hertz === 445)).toBe(true);
    expect(said(now)).toContain('445.0 Hz');
  });

  test('comes from another note than A4 too', () => {
    expect(said(heard(72, { hertz: 441.3 * 2 ** (3 / 12), seconds: 1.5 }))).toContain('441.3 Hz');
  });
});
