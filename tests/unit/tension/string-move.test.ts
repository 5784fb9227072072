import { describe, expect, test } from 'vitest';
import { courseScaleLength, instrumentPresets, type InstrumentPreset } from '#shared/instruments/index.ts';
import { pitchHertz } from '#shared/music/index.ts';
import { breakShare, judgeMove, type MoveVerdict } from '#shared/tension/index.ts';
import { atCents, cents, hertz, millimetres, newtons } from '#shared/units/index.ts';

/** What a move of all strings by so many semitones means for each, from the player's eye down. */
const verdicts = (preset: InstrumentPreset, semitones: number): readonly MoveVerdict[] =>
  preset.courses.flatMap((course) =>
    course.strings.map((string, index) => {
      const from = pitchHertz(course.home[index] ?? course.home[0]!, hertz(440));
      return judgeMove({
        string,
        scaleLength: courseScaleLength(preset, course),
        from,
        to: atCents(from, cents(semitones * 100)),
        leastUsualPull: preset.usualPullNewtons === null ? null : newtons(preset.usualPullNewtons[0]),
      }).verdict;
    }),
  );

const byId = (id: string): InstrumentPreset => instrumentPresets.find((preset) => preset.id === id)!;
const ukuleles = instrumentPresets.filter(({ family }) => family === 'ukulele');
const plainNylon = { material: 'nylon', wound: false, diameterMillimetres: 0.7, linearDensityKilogramsPerMetre: null } as const;

describe('facts of the trade (common practice)', () => {
  test.each(ukuleles.map((preset) => [preset.id, preset] as const))('%s takes a tone and a tone and a half down', (_, preset) => {
    for (const semitones of [-2, -3]) {
      const allowed = new Set<MoveVerdict>(['within', 'soft']);
      expect(verdicts(preset, semitones).filter((verdict) => !allowed.has(verdict))).toEqual([]);
    }
  });

  test('where a tone and a half down goes soft, that is said', () => {
    const soft = ukuleles.filter((preset) => verdicts(preset, -3).includes('soft')).map(({ id }) => id);
    expect(soft).toEqual(['ukulele-concert-low-g']);
    expect(verdicts(byId('ukulele-soprano-high-g'), -7)).toContain('soft');
  });

  test.each(instrumentPresets.map((preset) => [preset.id, preset] as const))('%s: an octave either way is another string', (_, preset) => {
    for (const semitones of [-12, 12]) expect(new Set(verdicts(preset, semitones))).toEqual(new Set(['another string']));
  });

  test('a small ukulele takes a tone up; a long baritone does not take a fifth', () => {
    for (const id of ['ukulele-soprano-high-g', 'ukulele-concert-high-g', 'ukulele-concert-low-g']) {
      expect(verdicts(byId(id), 2)).not.toContain('confirm');
      expect(verdicts(byId(id), 2)).not.toContain('near the limit');
    }
    expect(verdicts(byId('ukulele-baritone'), 7)).toContain('confirm');
  });
});

describe('one string’s move', () => {
  const move = (scale: number, from: number, to: number, leastUsualPull: number | null = null) =>
    judgeMove({
      string: plainNylon,
      scaleLength: millimetres(scale),
      from: hertz(from),
      to: hertz(to),
      leastUsualPull: leastUsualPull === null ? null : newtons(leastUsualPull),
    });

  test('tells pull before and after with their bands, and the change between', () => {
    const { before, after, changeNewtons, semitones } = move(430, 392, 440);
    expect(semitones).toBeCloseTo(2, 2);
    expect(changeNewtons).toBeCloseTo(after!.value - before!.value, 9);
    expect(after!.value / before!.value).toBeCloseTo((440 / 392) ** 2, 9);
    expect(before!.high / before!.low).toBeCloseTo(1140 / 940, 9);
  });

  test.each([
    [0.5, 'within'],
    [0.6, 'high'],
    [0.8, 'near the limit'],
    [0.9, 'confirm'],
    [1.05, 'another string'],
  ])('raised to %d of the breaking stress: %s', (share, verdict) => {
    const to = 440 * Math.sqrt(share / breakShare(plainNylon, millimetres(500), hertz(440))!);
    expect(move(500, to / 1.06, to).verdict).toBe(verdict);
  });

  test('loosening is never a matter of breaking, and soft only where a usual pull is known', () => {
    const to = 440 * Math.sqrt(0.95 / breakShare(plainNylon, millimetres(500), hertz(440))!);
    expect(move(500, to * 1.06, to).verdict).toBe('within');
    expect(move(350, 440, 300, 60).verdict).toBe('soft');
    expect(move(350, 440, 300).verdict).toBe('within');
  });

  test('a maker’s rating is kept to where it is known', () => {
    const at = (ratedTensionNewtons: number) =>
      judgeMove({
        string: { ...plainNylon, ratedTensionNewtons },
        scaleLength: millimetres(430),
        from: hertz(392),
        to: hertz(440),
        leastUsualPull: null,
      });
    const pull = at(100).after!.value;
    expect(at(pull * 1.01).isBeyondRating).toBe(false);
    expect(at(pull * 0.99).isBeyondRating).toBe(true);
    expect(move(430, 392, 440).isBeyondRating).toBe(false);
  });

  test('without figures nothing is claimed', () => {
    const string = { ...plainNylon, wound: true, diameterMillimetres: null };
    const judged = judgeMove({ string, scaleLength: millimetres(500), from: hertz(200), to: hertz(220), leastUsualPull: newtons(20) });
    expect(judged).toMatchObject({ before: null, after: null, changeNewtons: null, share: null, verdict: 'within' });
  });
});
