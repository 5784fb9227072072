import { Interval, Note } from 'tonal';
import { pitchMidi, type SpelledPitch } from './pitch.ts';

declare const spelledInterval: unique symbol;

/** A spelled interval with its direction, in tonal's notation: `-2m` = down a minor second, `1A` = up an augmented unison. */
export type SpelledInterval = string & { readonly [spelledInterval]: true };

/** The spelled interval from one pitch to another. `distance('E4', 'Eb4')` → `-1A`; `distance('E4', 'D#4')` → `-2m`. */
export function distance(from: SpelledPitch, to: SpelledPitch): SpelledInterval {
  const name = Interval.distance(from, to);
  if (name === '') throw new RangeError(`no interval from ${from} to ${to}`);
  return name as SpelledInterval;
}

/**
 * The pitch that lies an interval from another, spelled as the interval says; where that takes more than one sign it is
 * respelled plainly. `transpose('B3', '-2m')` → `A#3`.
 */
export function transpose(pitch: SpelledPitch, interval: SpelledInterval): SpelledPitch {
  const moved = Note.transpose(pitch, interval);
  if (moved === '') throw new RangeError(`cannot move ${pitch} by ${interval}`);
  return (/bb|##/u.test(moved) ? Note.simplify(moved) : moved) as SpelledPitch;
}

/** Signed semitones from one pitch to another. `semitonesBetween('E4', 'Eb4')` → −1. */
export const semitonesBetween = (from: SpelledPitch, to: SpelledPitch): number => pitchMidi(to) - pitchMidi(from);

const qualities: Readonly<Record<string, string>> = { P: 'perfect', M: 'major', m: 'minor', A: 'augmented', d: 'diminished' };
const steps = ['unison', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'octave'];

/** An interval in words. `writtenInterval('-2m')` → `down a minor second`; a unison is `stays`. */
export function writtenInterval(interval: SpelledInterval): string {
  const { num, q, semitones } = Interval.get(interval);
  if (semitones === 0 && Math.abs(num) === 1) return 'stays';
  const size = steps[Math.abs(num) - 1] ?? `${Math.abs(num)}th`;
  const quality = qualities[q] ?? 'altered';
  const article = quality === 'augmented' || quality === 'altered' ? 'an' : 'a';
  return `${semitones < 0 || num < 0 ? 'down' : 'up'} ${article} ${quality} ${size}`;
}
