import { describe, expect, test } from 'vitest';
import {
  courseNumber,
  courseScaleLength,
  homePitches,
  instrumentPresets,
  stringSetFromPreset,
  stringSetSchema,
} from '#shared/instruments/index.ts';
import { breakShare, confirmShare, linearDensity, tensionNewtons } from '#shared/tension/index.ts';
import { openChord, pitchHertz, semitonesBetween } from '#shared/music/index.ts';
import { carry, duplicates, type TuningPreset, tuningPresets } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';

const reference = hertz(440);

const rows = instrumentPresets.map((preset) => {
  const set = stringSetFromPreset(preset, { id: 's', instrumentId: 'i', name: 'first', fittedAt: 0 });
  const strings = set.courses.flatMap((course) =>
    course.strings.map((string, index) => {
      const pitch = pitchHertz(course.home[index] ?? course.home[0]!, reference);
      const scale = courseScaleLength(preset, course);
      return { string, pitch, scale, pull: tensionNewtons(linearDensity(string)!.value, scale, pitch) };
    }),
  );
  return { id: preset.id, preset, set, strings };
});

describe.each(rows)('the instrument preset $id', ({ preset, set, strings }) => {
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

  test('pulls about evenly: no string three times as hard as another', () => {
    const pulls = strings.map(({ pull }) => pull);
    expect(Math.max(...pulls) / Math.min(...pulls)).toBeLessThan(3);
  });

  test('sits below the limit for breaking at home', () => {
    for (const { string, pitch, scale } of strings) expect(breakShare(string, scale, pitch) ?? 0).toBeLessThan(confirmShare);
  });
});

describe('pull at home, against what is published for the size', () => {
  const published = rows.flatMap(({ id, preset, strings }) =>
    preset.usualPullNewtons === null
      ? []
      : [{ id, usual: preset.usualPullNewtons, total: preset.usualTotalPullNewtons, pulls: strings.map(({ pull }) => pull) }],
  );
  const wholeSets = published.flatMap(({ id, total, pulls }) => (total === null ? [] : [{ id, total, pulls }]));

  test.each(published)('$id: each string, give or take a quarter', ({ usual, pulls }) => {
    expect(Math.min(...pulls)).toBeGreaterThan(usual[0] * 0.75);
    expect(Math.max(...pulls)).toBeLessThan(usual[1] * 1.25);
  });

  test.each(wholeSets)('$id: the whole set, give or take a tenth', ({ total, pulls }) => {
    const sum = pulls.reduce((soFar, pull) => soFar + pull, 0);
    expect(sum).toBeGreaterThan(total[0] * 0.9);
    expect(sum).toBeLessThan(total[1] * 1.1);
  });

  test('every ukulele has both', () => {
    const ukuleles = instrumentPresets.filter(({ family }) => family === 'ukulele');
    expect(wholeSets.map(({ id }) => id)).toEqual(expect.arrayContaining(ukuleles.map(({ id }) => id)));
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
      const homes = instrumentPresets.map((preset) =>
        homePitches(stringSetFromPreset(preset, { id: 's', instrumentId: 'i', name: 'n', fittedAt: 0 })),
      );
      expect(homes.some((there) => carry(rowOf(tuning), there)?.sameShapes === true)).toBe(true);
      for (const [index, pitch] of tuning.pitches.entries()) {
        expect(Math.abs(Math.log2(pitchHertz(pitch, reference) / pitchHertz(tuning.home[index]!, reference)))).toBeLessThan(0.5);
      }
    },
  );

  test.each(tuningPresets.map((tuning) => [tuning.id, tuning] as const))('the starter tuning %s is what its name says', (_, tuning) => {
    const steps = tuning.pitches.map((pitch, index) => semitonesBetween(tuning.home[index]!, pitch));
    expect(claimOf(tuning.name, steps, openChord(tuning.pitches))).toBe(true);
  });

  test('no starter tuning is there twice', () => {
    expect(duplicates(tuningPresets.map((tuning) => ({ ...tuning, ...rowOf(tuning) })))).toEqual([]);
  });

  test.each(instrumentPresets.map((preset) => [preset.id, preset] as const))('%s finds its home among the starter tunings', (_, preset) => {
    const home = preset.courses.map((course) => course.home);
    const homes = tuningPresets.filter(({ name }) => name === 'Home');
    expect(homes.filter((tuning) => carry(rowOf(tuning), home)?.sameShapes === true)).toHaveLength(1);
  });
});

const rowOf = ({ pitches, home }: TuningPreset) => ({
  courses: pitches.map((pitch) => ({ pitches: [pitch], offsetCents: 0 })),
  home: home.map((pitch) => [pitch]),
});

const sizes: Readonly<Record<string, number>> = { 'a semitone': 1, 'a tone': 2 };

/** Whether a name is borne out by the moves or by the chord of the open courses. Drop and double are trade terms, checked against published pitches. */
function claimOf(name: string, steps: readonly number[], chord: string | null): boolean {
  if (name === 'Home') return steps.every((step) => step === 0);
  if (name.startsWith('Open ')) return [name.slice(5), `${name.slice(5)} major`].includes((chord ?? '').replace('♭', 'b'));
  const [, who, way, size] = /^(\d|All) (up|down) (a semitone|a tone)$/u.exec(name) ?? [];
  if (who === undefined) return /^(?:Drop|Double) [A-G]$/u.test(name);
  const step = (way === 'down' ? -1 : 1) * sizes[size!]!;
  const wanted = steps.map((_, index) => (who === 'All' || Number(who) === courseNumber(index, steps.length) ? step : 0));
  return wanted.join(' ') === steps.join(' ');
}
