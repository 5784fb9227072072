import { type Cents, cents, centsBetween, hertz } from '#shared/units/index.ts';
import type { HeardPitch } from './steady.ts';

/** One course, open and stopped at its 12th fret, one pluck each. */
export type FretPair = { readonly course: number; readonly open: HeardPitch; readonly fretted: HeardPitch };

/** How far the 12th fret reads from the octave of the open string, positive = sharp, and what that may mean. */
export type FretReading = {
  readonly course: number;
  readonly cents: Cents;
  readonly sigmaCents: number;
  readonly verdict: 'true' | 'slightly-sharp' | 'slightly-flat' | 'sharp' | 'flat' | 'unclear' | 'not-the-12th-fret';
  readonly sentence: string;
};

/** Up to here the 12th fret passes for true, and from here it is worth a look, in cents (common practice). */
const trueCents = 5;
const farCents = 12;
/** Further off than this another fret was stopped, in cents. */
const otherFretCents = 70;
/** Courses off alike point to the instrument; one that differs from the others by more than this points to its string, in cents. */
const aloneCents = 8;

/**
 * The 12th fret against the open string, per course. Causes are common practice, the likeliest first; a string that was slackened reads sharp because
 * pressing it stretches it more. `number` names a course as the player does.
 * Open 220.0 Hz, fretted 442.0 Hz → +7.9 c: slightly sharp. A single course that is off among true ones is blamed on its string.
 */
export function checkFrets(pairs: readonly FretPair[], number: (course: number) => number): readonly FretReading[] {
  const read = pairs.map(({ course, open, fretted }) => ({
    course,
    cents: cents(centsBetween(hertz(fretted.hertz), hertz(open.hertz)) - 1200),
    sigmaCents: Math.hypot(open.sigmaCents, fretted.sigmaCents),
  }));
  return read.map((one) => {
    const others = read
      .filter(({ course, cents: off }) => course !== one.course && Math.abs(off) < otherFretCents)
      .map(({ cents: off }) => off);
    const isAlone = others.length > 0 && others.every((off) => Math.abs(one.cents - off) > aloneCents);
    const verdict = verdictOf(one.cents, one.sigmaCents);
    return { ...one, verdict, sentence: sentenceOf(verdict, number(one.course), one.cents, isAlone) };
  });
}

function verdictOf(off: number, sigma: number): FretReading['verdict'] {
  const size = Math.abs(off);
  if (size > otherFretCents) return 'not-the-12th-fret';
  if (2 * sigma > trueCents) return 'unclear';
  if (size <= trueCents) return 'true';
  if (size <= farCents) return off > 0 ? 'slightly-sharp' : 'slightly-flat';
  return off > 0 ? 'sharp' : 'flat';
}

function sentenceOf(verdict: FretReading['verdict'], course: number, off: number, isAlone: boolean): string {
  const by = `Course ${course} reads ${Math.round(Math.abs(off))} c ${off > 0 ? 'sharp' : 'flat'} at the 12th fret`;
  switch (verdict) {
    case 'not-the-12th-fret':
      return `Course ${course}: that was not the 12th fret. Pluck it open, then stopped at the 12th.`;
    case 'unclear':
      return `Course ${course} was not heard clearly enough: pluck it once more, open and at the 12th fret.`;
    case 'true':
      return `Course ${course} is true at the 12th fret.`;
    case 'slightly-sharp':
    case 'slightly-flat':
      return `${by}: little enough to leave.`;
    case 'sharp':
      return isAlone
        ? `${by}, unlike the others: an old or uneven string, or one too slack or too thick for this pitch. Try a new string first.`
        : `${by}: slackened strings are pressed sharp. If it stays so in the home tuning, the action is high, or the saddle stands too near (compensation).`;
    case 'flat':
      return isAlone
        ? `${by}, unlike the others: most likely an old or uneven string. Try a new one first.`
        : `${by}: the saddle stands too far back for these strings, or they pull harder than the saddle was set for.`;
  }
}
