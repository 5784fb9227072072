// Units: branded numbers for quantities that must not be mixed up, and the conversions between them.
// Knows: cents, hertz, MIDI numbers, lengths, forces, seconds. Must not know: notes, strings, the reference in force tonight.
// Add here: a unit that two rooms pass to one another. Constructors refuse what cannot be a value of the unit.

export { materials, type Material } from './material.ts';

declare const unit: unique symbol;

/** Frequency in hertz, above 0. */
export type Hertz = number & { readonly [unit]: 'hertz' };
/** Pitch distance in hundredths of an equal-tempered semitone; positive = sharp. */
export type Cents = number & { readonly [unit]: 'cents' };
/** MIDI note number, A4 = 69; may be fractional. */
export type Midi = number & { readonly [unit]: 'midi' };
/** Length in millimetres, above 0. */
export type Millimetres = number & { readonly [unit]: 'millimetres' };
/** Force in newtons, 0 or more. */
export type Newtons = number & { readonly [unit]: 'newtons' };
/** Mass per length in kilograms per metre, above 0. */
export type KilogramsPerMetre = number & { readonly [unit]: 'kilograms per metre' };

const refuse = (name: string, value: number, range: string): never => {
  throw new RangeError(`${name} must be ${range}; got ${value}`);
};

const positive =
  <Unit extends number>(name: string) =>
  (value: number): Unit =>
    Number.isFinite(value) && value > 0 ? (value as Unit) : refuse(name, value, 'a finite number above 0');

/** Takes a frequency. `hertz(440)` → 440. Throws RangeError at or below 0. */
export const hertz = positive<Hertz>('hertz');
/** Takes a length. `millimetres(431)` → 431. Throws RangeError at or below 0. */
export const millimetres = positive<Millimetres>('millimetres');
/** Takes a linear density. `kilogramsPerMetre(0.0004)` → 0.0004. Throws RangeError at or below 0. */
export const kilogramsPerMetre = positive<KilogramsPerMetre>('kilograms per metre');

/** Takes a distance in cents. `cents(-3)` → −3. Throws RangeError unless finite. */
export const cents = (value: number): Cents => (Number.isFinite(value) ? (value as Cents) : refuse('cents', value, 'a finite number'));

/** Takes a MIDI number. `midi(69)` → 69. Throws RangeError outside −60…200. */
export const midi = (value: number): Midi =>
  value >= -60 && value <= 200 ? (value as Midi) : refuse('midi', value, 'between −60 and 200');

/** Takes a force. `newtons(40)` → 40. Throws RangeError below 0. */
export const newtons = (value: number): Newtons =>
  Number.isFinite(value) && value >= 0 ? (value as Newtons) : refuse('newtons', value, 'a finite number, 0 or more');

/** How far a heard frequency lies from a wanted one, in cents: `1200·log2(heard/wanted)`. `centsBetween(hertz(442), hertz(440))` → 7.85. */
export const centsBetween = (heard: Hertz, wanted: Hertz): Cents => cents(1200 * Math.log2(heard / wanted));

/** The frequency that lies `distance` cents from `from`. `atCents(hertz(440), cents(1200))` → 880. */
export const atCents = (from: Hertz, distance: Cents): Hertz => hertz(from * 2 ** (distance / 1200));

/**
 * Equal temperament: `f = reference · 2^((m − 69)/12)`; MIDI Tuning Standard, with A4 = 69.
 * `midiToHertz(midi(60), hertz(440))` → 261.6256.
 */
export const midiToHertz = (note: Midi, reference: Hertz): Hertz => hertz(reference * 2 ** ((note - 69) / 12));

/** The inverse of `midiToHertz`; fractional. `hertzToMidi(hertz(440), hertz(440))` → 69. */
export const hertzToMidi = (frequency: Hertz, reference: Hertz): Midi => midi(69 + 12 * Math.log2(frequency / reference));
