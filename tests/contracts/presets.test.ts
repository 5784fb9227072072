import { describe, expect, test } from 'vitest';
import { homePitches, instrumentPresets, stringSetFromPreset, stringSetSchema } from '#shared/instruments/index.ts';
import { breakShare, confirmShare, linearDensity, tensionNewtons } from '#shared/tension/index.ts';
import { pitchHertz } from '#shared/music/index.ts';
import { carry, tuningPresets } from '#shared/tunings/index.ts';
import { hertz, millimetres } from '#shared/units/index.ts';

const reference = hertz(440);

describe.each(instrumentPresets.map((preset) => [preset.id, preset] as const))('the instrument preset %s', (_, preset) => {
  const set = stringSetFromPreset(preset, { id: 's', instrumentId: 'i', name: 'first', fittedAt: 0 });
  const strings = set.courses.flatMap(({ strings: all, home }) =>
    all.map((string, index) => ({ string, pitch: pitchHertz(home[index] ?? home[0]!, reference) })),
  );

  test('makes a string set that the library takes, and names its source', () => {
    expect(stringSetSchema.parse(set)).toEqual(set);
    expect(preset.source.length).toBeGreaterThan(10);
  });

  test('has open strings that the pitch tracker can read', () => {
    for (const { pitch } of strings) {
      expect(pitch).toBeGreaterThan(28);
      expect(pitch).toBeLessThan(1400);
    }
  });

  test('pulls what sets of this size are published to pull, give or take a quarter', () => {
    for (const { string, pitch } of strings) {
      const pull = tensionNewtons(linearDensity(string)!.value, millimetres(preset.scaleLengthMillimetres), pitch);
      expect(pull).toBeGreaterThan(preset.usualPullNewtons[0] * 0.75);
      expect(pull).toBeLessThan(preset.usualPullNewtons[1] * 1.25);
    }
  });

  test('sits below the limit for breaking at home', () => {
    for (const { string, pitch } of strings)
      expect(breakShare(string, millimetres(preset.scaleLengthMillimetres), pitch) ?? 0).toBeLessThan(confirmShare);
  });
});

describe('the registries', () => {
  test('ids are given once', () => {
    for (const ids of [instrumentPresets.map(({ id }) => id), tuningPresets.map(({ id }) => id)])
      expect(new Set(ids).size).toBe(ids.length);
  });

  test.each(tuningPresets.map((tuning) => [tuning.id, tuning] as const))(
    'the starter tuning %s fits an instrument and moves no string by an octave',
    (_, tuning) => {
      const courses = tuning.pitches.map((pitch) => ({ pitches: [pitch], offsetCents: 0 }));
      const home = tuning.home.map((pitch) => [pitch]);
      const homes = instrumentPresets.map((preset) =>
        homePitches(stringSetFromPreset(preset, { id: 's', instrumentId: 'i', name: 'n', fittedAt: 0 })),
      );
      expect(homes.some((there) => carry({ courses, home }, there)?.sameShapes === true)).toBe(true);
      for (const [index, pitch] of tuning.pitches.entries()) {
        expect(Math.abs(Math.log2(pitchHertz(pitch, reference) / pitchHertz(tuning.home[index]!, reference)))).toBeLessThan(0.5);
      }
    },
  );
});
