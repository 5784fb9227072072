import { type Cents, cents, centsBetween, type Hertz, hertz, hertzToMidi, type Midi, midi, midiToHertz } from '#shared/units/index.ts';
import type { Frame } from './steady.ts';

/** A reference pitch taken from a sounding instrument: A4 in hertz with its standard error; or why there is none. */
export type HeardReference =
  | { readonly kind: 'reference'; readonly a4Hertz: Hertz; readonly sigmaCents: Cents; readonly sigmaHertz: number }
  | { readonly kind: 'refused'; readonly reason: 'too-short' | 'unsteady' | 'another-note' | 'out-of-range' };

/** A reference is between these, in hertz (the range of the settings). */
const lowestHertz = 400;
const highestHertz = 480;
/** So long a note has to stand still, in seconds, and so many frames of it have to be heard. */
const leastSeconds = 0.5;
const fewestFrames = 8;
/** Frames that scatter by more than this are of no one note, as a sigma in cents. */
const mostScatterCents = 4;
/** A piano is tuned wider than equal temperament away from A4: it is trusted less by this many cents an octave (assumed; common practice keeps the middle within two). */
const stretchCentsPerOctave = 1.5;
/** At A4 itself: its strings beat, and are a little off one another (assumed). */
const leastSigmaCents = 0.3;

/**
 * The reference pitch of a piano, organ or whatever others tune to, from the frames of one note of it, named by its MIDI number (A4 = 69).
 * A4 itself is best; away from it the stretch of a piano widens the error.
 * `referenceFrom(frames at 442.1 Hz, midi(69))` → A4 = 442.1 ± 0.1; C5 at 525.7 Hz, midi(72) → 442.1 ± 0.1.
 * Refused: less than half a second, pitches that scatter, another note (A4 would be more than two and a half semitones off), an A4 outside 400…480 Hz.
 */
export function referenceFrom(frames: readonly Frame[], note: Midi): HeardReference {
  const steady = frames.filter((frame) => frame.steady);
  const [first, last] = [steady[0], steady.at(-1)];
  if (first === undefined || last === undefined || steady.length < fewestFrames || last.atSeconds - first.atSeconds < leastSeconds)
    return { kind: 'refused', reason: 'too-short' };
  const offsets = steady.map((frame) => centsBetween(hertz(frame.hertz), hertz(first.hertz)));
  const middle = median(offsets);
  const scatter = 1.4826 * median(offsets.map((offset) => Math.abs(offset - middle)));
  if (scatter > mostScatterCents) return { kind: 'refused', reason: 'unsteady' };
  const heard = hertz(first.hertz * 2 ** (middle / 1200));
  const a4Hertz = hertz((heard * 440) / midiToHertz(note, hertz(440)));
  if (a4Hertz < lowestHertz || a4Hertz > highestHertz)
    return {
      kind: 'refused',
      reason: Math.abs(hertzToMidi(a4Hertz, hertz(440)) - a4) > mostSemitonesOff ? 'another-note' : 'out-of-range',
    };
  const claimed = median(steady.map(({ sigmaCents }) => sigmaCents));
  const stretch = stretchCentsPerOctave * Math.abs((note - a4) / 12);
  const sigmaCents = cents(Math.hypot(Math.max(claimed, scatter), leastSigmaCents, stretch));
  return { kind: 'reference', a4Hertz, sigmaCents, sigmaHertz: a4Hertz * (2 ** (sigmaCents / 1200) - 1) };
}

const a4 = midi(69);
/** Beyond 400…480 Hz by so much, another note was played than the one named. */
const mostSemitonesOff = 2.5;

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length / 2;
  return sorted.length % 2 === 1 ? (sorted[Math.floor(half)] ?? 0) : ((sorted[half - 1] ?? 0) + (sorted[half] ?? 0)) / 2;
}
