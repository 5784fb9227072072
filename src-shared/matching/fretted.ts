import { centsBetween, type Hertz, hertz } from '#shared/units/index.ts';

/** A stopped string reads higher by whole semitones and a little for the pressure of the finger, give or take so much, in cents. */
const semitone = 100;
const pressureCents = 4;
const frettedCents = 14;

/** Whether a pitch may be a string stopped at a fret: whole semitones above where it sounds open. 277.8 Hz on C4 → true; 270 Hz → false. */
export function soundsFretted(heard: Hertz, openHertz: number): boolean {
  const above = centsBetween(heard, hertz(openHertz)) - pressureCents;
  const fret = Math.round(above / semitone);
  return fret >= 1 && Math.abs(above - fret * semitone) <= frettedCents;
}
