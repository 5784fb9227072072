// Retunes played out, and what became of the strings.
import type { Learned, Setup } from '#shared/guidance/index.ts';
import { type Guide, type Outcome, play } from '#shared/simulation/player/index.ts';
import { type Random, seededRandom } from '#shared/simulation/strings/index.ts';
import { print } from '../settling/table.ts';
import { coachGuide, meterGuide } from './guides.ts';
import { drawScene, drawTarget, type Scene } from './scenes.ts';

export const toleranceCents = 3;
const minute = 60;
const day = 86_400;

export interface Played extends Outcome {
  readonly seconds: number;
  /** The string furthest from wanted at the end, and 10 and 30 minutes after it. */
  readonly worst: readonly [number, number, number];
  readonly aimed: number;
}

const centsOff = (heard: number, wanted: number): number => 1200 * Math.log2(heard / wanted);

const worstAt = ({ instrument }: Scene, wanted: readonly number[], at: number): number =>
  Math.max(...wanted.map((pitch, place) => Math.abs(centsOff(instrument.hertzAt(place, at), pitch))));

const played = (
  random: Random,
  scene: Scene,
  wanted: readonly number[],
  guide: Guide,
  from: number,
  aims: () => readonly number[],
): Played => judged(scene, wanted, from, play(random, scene.instrument, scene.player, guide, from), aims);

/** What became of the strings after a retune. */
export function judged(scene: Scene, wanted: readonly number[], from: number, outcome: Outcome, aims: () => readonly number[]): Played {
  const { untilSeconds: end } = outcome;
  const [first, later] = [end, end + 10 * minute];
  return {
    ...outcome,
    seconds: end - from,
    worst: [worstAt(scene, wanted, first), worstAt(scene, wanted, later), worstAt(scene, wanted, end + 30 * minute)],
    aimed: worstAt(scene, aims(), end),
  };
}

export function setupOf(
  scene: Scene,
  random: Random,
  wanted: readonly number[],
  atSeconds: number,
  learned: Learned,
  leadSeconds: number | null,
): Setup {
  const { preset, instrument, densities, daysSinceChange } = scene;
  return {
    instrument: {
      scaleLengthMillimetres: preset.scaleLengthMillimetres,
      courses: preset.courses.map(({ strings: [string] }, place) => ({
        strings: [
          {
            material: string!.material,
            wound: string!.wound,
            daysSinceChange: daysSinceChange + atSeconds / day,
            linearDensityKilogramsPerMetre: densities[place] ?? null,
          },
        ],
      })),
    },
    present: wanted.map((_, place) => [instrument.hertzAt(place, atSeconds) * 2 ** (random.normal(1.5) / 1200)]),
    wanted: wanted.map((pitch) => [pitch]),
    toleranceCents,
    atSeconds,
    lead: leadSeconds === null ? null : { untilSeconds: atSeconds + leadSeconds, capCents: 15 },
    learned,
  };
}

type Coached = { readonly played: Played; readonly learned: Learned };

function coached(
  random: Random,
  scene: Scene,
  wanted: readonly number[],
  from: number,
  learned: Learned,
  leadSeconds: number | null,
): Coached {
  const guide = coachGuide(setupOf(scene, random, wanted, from, learned, leadSeconds));
  const result = played(random, scene, wanted, guide, from, () =>
    guide.state().strings.map(({ wantedHertz, leadCents }) => wantedHertz * 2 ** (leadCents / 1200)),
  );
  const checks = [2, 5, 10, 30].flatMap((minutes) =>
    wanted.map((_, place) => {
      const atSeconds = result.untilSeconds + minutes * minute + place;
      const hertz = scene.instrument.hertzAt(place, atSeconds) * 2 ** (random.normal(scene.player.sigmaCents) / 1200);
      return { atSeconds, course: place, string: 0, hertz, sigmaCents: scene.player.sigmaCents };
    }),
  );
  const retune = {
    startedAtSeconds: from,
    wanted: wanted.map((pitch) => [pitch]),
    turns: guide.effects.flatMap((effect) => (effect.kind === 'turned' ? [effect] : [])),
    readings: [...guide.effects.flatMap((effect) => (effect.kind === 'record' ? [effect] : [])), ...checks],
  };
  return { played: result, learned: { retunes: [...learned.retunes, retune] } };
}

export const nothing: Learned = { retunes: [] };

const quantile = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;
const spread = (values: readonly number[], digits: number): string =>
  [0.5, 0.95].map((share) => quantile(values, share).toFixed(digits)).join(' / ');
const percent = (hits: readonly boolean[]): string => `${((100 * hits.filter(Boolean).length) / hits.length).toFixed(1)} %`;

export const row = (name: string, all: readonly Played[]): readonly string[] => [
  name,
  spread(
    all.map(({ turns }) => turns),
    0,
  ),
  spread(
    all.map(({ passes }) => passes),
    0,
  ),
  percent(all.map(({ passes }) => passes <= 1)),
  spread(
    all.map(({ seconds }) => seconds),
    0,
  ),
  ...[0, 1, 2].map((at) =>
    spread(
      all.map(({ worst }) => worst[at] ?? Number.NaN),
      1,
    ),
  ),
  percent(all.map(({ aimed }) => aimed <= toleranceCents)),
  percent(all.map(({ worst }) => worst[1] <= toleranceCents)),
  `${all.filter(({ isDone }) => !isDone).length}`,
];
export const head = [
  '',
  'peg turns',
  'passes',
  'in one pass',
  'seconds',
  'worst at the end',
  'after 10 min',
  'after 30 min',
  'all inside at the end',
  'all ≤ 3 c after 10 min',
  'unfinished',
];

/** Runs one way of retuning over freshly drawn scenes; the same seed gives every way the same scenes. */
const over = (seed: number, count: number, run: (random: Random, scene: Scene) => Played): readonly Played[] =>
  seedsFrom(seed, count).map((own) => {
    const random = seededRandom(own);
    return run(random, drawScene(random));
  });

/** Neighbouring seeds begin alike, so each scene's is drawn. */
export function seedsFrom(seed: number, count: number): readonly number[] {
  const random = seededRandom(seed);
  return Array.from({ length: count }, () => Math.floor(random.between(1, 2 ** 31)));
}

/** Prints the table of first evenings: two baselines and the coach, without and with a lead for ten minutes. */
export function retunes(seed: number, count: number): void {
  const meter = (repeats: boolean) => (random: Random, scene: Scene) => {
    const wanted = drawTarget(random, scene, scene.tunings[0] ?? []);
    const present = wanted.map((_, place) => scene.instrument.hertzAt(place, 0));
    return played(random, scene, wanted, meterGuide(wanted, present, toleranceCents, repeats), 0, () => wanted);
  };
  const coach = (leadSeconds: number | null) => (random: Random, scene: Scene) =>
    coached(random, scene, drawTarget(random, scene, scene.tunings[0] ?? []), 0, nothing, leadSeconds).played;
  print(`Retunes of ${count} instruments × tunings, ±${toleranceCents} cents, median / 95th, nothing learned before`, head, [
    row('one pass with a plain meter', over(seed, count, meter(false))),
    row('repeated passes with a plain meter', over(seed, count, meter(true))),
    row('coach, no lead', over(seed, count, coach(null))),
    row('coach, lead for 10 min', over(seed, count, coach(10 * minute + 40))),
  ]);
}

/** Prints how the coach gets better with the instrument: evening by evening, each a day after the other. */
export function evenings(
  seed: number,
  count: number,
  shown = [0, 1, 2, 4],
  leads: readonly (number | null)[] = [null, 10 * minute + 40],
): void {
  for (const leadSeconds of leads) {
    const runs = seedsFrom(seed, count).map((own) => {
      const random = seededRandom(own);
      const scene = drawScene(random);
      let learned = nothing;
      let from = scene.tunings[0] ?? [];
      return Array.from({ length: 1 + Math.max(...shown) }, (_evening, evening) => {
        const wanted = drawTarget(random, scene, from);
        const one = coached(random, scene, wanted, evening * day, learned, leadSeconds);
        [learned, from] = [one.learned, wanted];
        return one.played;
      });
    });
    const name = leadSeconds === null ? 'no lead' : 'lead for 10 min';
    print(
      `The same instruments, evening after evening, ${name}`,
      head,
      shown.map((evening) =>
        row(
          `evening ${evening + 1}`,
          runs.flatMap((run) => run[evening] ?? []),
        ),
      ),
    );
  }
}
