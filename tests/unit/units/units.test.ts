import { describe, expect, test } from 'vitest';
import { atCents, cents, centsBetween, hertz, hertzToMidi, midi, midiToHertz, millimetres, newtons } from '#shared/units/index.ts';

describe('quantities refuse what they cannot be', () => {
  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('%d Hz is no frequency', (value) => {
    expect(() => hertz(value)).toThrow(RangeError);
  });

  test('the refusal names the value and the range', () => {
    expect(() => millimetres(-5)).toThrow('millimetres must be a finite number above 0; got -5');
    expect(() => newtons(-1)).toThrow('0 or more');
    expect(() => cents(Number.NaN)).toThrow('finite');
    expect(() => midi(400)).toThrow('between');
  });
});

describe('cents', () => {
  test('deviation is heard minus wanted: sharp is positive', () => {
    expect(centsBetween(hertz(442), hertz(440))).toBeCloseTo(7.85, 2);
    expect(centsBetween(hertz(438), hertz(440))).toBeLessThan(0);
  });

  test('an octave is 1200 cents, there and back', () => {
    expect(atCents(hertz(220), cents(1200))).toBe(440);
    expect(centsBetween(hertz(220), hertz(440))).toBe(-1200);
  });

  test('MIDI numbers and frequencies are each other’s inverse', () => {
    expect(hertzToMidi(midiToHertz(midi(60.25), hertz(442)), hertz(442))).toBeCloseTo(60.25, 12);
  });
});
