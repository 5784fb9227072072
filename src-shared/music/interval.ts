import { pitchClass, pitchMidi, pitchNamed, type SpelledPitch } from './pitch.ts';
import { flatNames, sharpNames } from './spelling.ts';

// Own arithmetic: tonal loses an octave where an interval turns round at the octave's border (from Cb2 down to B1).

declare const spelledInterval: unique symbol;

/**
 * A spelled interval with its direction: `-2m` = down a minor second, `1A` = up an augmented unison, `2d` = up a diminished second (the next letter
 * at the same sound). Letters decide the number, so `Cb4` to `B3` goes down.
 */
export type SpelledInterval = string & { readonly [spelledInterval]: true };

const letters = 'CDEFGAB';
/** Semitones of the natural letters above C, which are also those of the perfect and major intervals above a unison. */
const naturals = [0, 2, 4, 5, 7, 9, 11];

/** Keeps what was worked out for two texts: a library of thousands of tunings asks for the same few hundred pairs over and over. */
function kept<One extends string, Other extends string, Result>(
  work: (one: One, other: Other) => Result,
): (one: One, other: Other) => Result {
  const known = new Map<One, Map<Other, Result>>();
  return (one, other) => {
    const here = known.get(one) ?? new Map<Other, Result>();
    known.set(one, here);
    const result = here.get(other) ?? work(one, other);
    here.set(other, result);
    return result;
  };
}

/** Letters from C0 up. */
const step = (pitch: SpelledPitch): number => letters.indexOf(pitch.charAt(0)) + 7 * Number(pitch.slice(pitchClass(pitch).length));

/** Semitones of so many letters up, where the interval is perfect or major. */
const plainSize = (steps: number): number => (naturals[steps % 7] ?? 0) + 12 * Math.floor(steps / 7);

const isPerfect = (steps: number): boolean => steps % 7 === 0 || steps % 7 === 3 || steps % 7 === 4;

/** The spelled interval from one pitch to another. `distance('E4', 'Eb4')` → `-1A`; `distance('E4', 'D#4')` → `-2m`. */
export const distance = kept((from: SpelledPitch, to: SpelledPitch): SpelledInterval => {
  const [steps, semitones] = [step(to) - step(from), semitonesBetween(from, to)];
  const isDown = steps < 0 || (steps === 0 && semitones < 0);
  const size = Math.abs(steps);
  const beyond = (isDown ? -semitones : semitones) - plainSize(size);
  return `${isDown ? '-' : ''}${size + 1}${qualityOf(beyond, isPerfect(size))}` as SpelledInterval;
});

function qualityOf(beyond: number, perfect: boolean): string {
  if (beyond > 0) return 'A'.repeat(beyond);
  if (beyond === 0) return perfect ? 'P' : 'M';
  return beyond === -1 && !perfect ? 'm' : 'd'.repeat(perfect ? -beyond : -beyond - 1);
}

/** Letters and semitones that an interval goes, both signed. */
function partsOf(interval: SpelledInterval): { readonly steps: number; readonly semitones: number; readonly quality: string } {
  const [, sign, number, quality = ''] = /^(-?)([1-9]\d*)(P|M|m|A+|d+)$/u.exec(interval) ?? [];
  if (number === undefined) throw new RangeError(`not a spelled interval: ${interval}`);
  const steps = Number(number) - 1;
  const narrowed = quality === 'm' ? 1 : quality.startsWith('d') ? quality.length + (isPerfect(steps) ? 0 : 1) : 0;
  const semitones = plainSize(steps) + (quality.startsWith('A') ? quality.length : -narrowed);
  return { steps: sign === '-' ? -steps : steps, semitones: sign === '-' ? -semitones : semitones, quality };
}

/**
 * The pitch that lies an interval from another, spelled as the interval says; where that takes more than one sign it is
 * respelled plainly. `transpose('B3', '-2m')` → `A#3`. Throws RangeError where the pitch has no stored form.
 */
export const transpose = kept((pitch: SpelledPitch, interval: SpelledInterval): SpelledPitch => {
  const { steps, semitones } = partsOf(interval);
  const [place, number] = [step(pitch) + steps, pitchMidi(pitch) + semitones];
  const letter = letters.charAt(((place % 7) + 7) % 7);
  const sign = number - (12 + 12 * Math.floor(place / 7) + (naturals[((place % 7) + 7) % 7] ?? 0));
  const plain = (sign < 0 ? flatNames : sharpNames)[((number % 12) + 12) % 12] ?? letter;
  const name = Math.abs(sign) > 1 ? plain : letter + (sign < 0 ? 'b' : sign > 0 ? '#' : '');
  const moved = pitchNamed(number, name);
  if (moved === null) throw new RangeError(`cannot move ${pitch} by ${interval}`);
  return moved;
});

/** Signed semitones from one pitch to another. `semitonesBetween('E4', 'Eb4')` → −1. */
export const semitonesBetween = (from: SpelledPitch, to: SpelledPitch): number => pitchMidi(to) - pitchMidi(from);

const qualities: Readonly<Record<string, string>> = { P: 'perfect', M: 'major', m: 'minor', A: 'augmented', d: 'diminished' };
const sizes = ['unison', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'octave'];

/** An interval in words. `writtenInterval('-2m')` → `down a minor second`; a unison is `stays`. */
export function writtenInterval(interval: SpelledInterval): string {
  const { steps, semitones, quality } = partsOf(interval);
  if (semitones === 0 && steps === 0) return 'stays';
  const size = sizes[Math.abs(steps)] ?? `${Math.abs(steps) + 1}th`;
  const word = qualities[quality] ?? 'altered';
  const article = word === 'augmented' || word === 'altered' ? 'an' : 'a';
  return `${semitones < 0 || steps < 0 ? 'down' : 'up'} ${article} ${word} ${size}`;
}
