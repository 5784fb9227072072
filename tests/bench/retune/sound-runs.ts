// Retunes played out by sound: the virtual strings as samples, the tracker, matching, the coach, and the player's pegs.
import { drawTimbre, playByEar, soundingOf } from '#shared/simulation/sounding/index.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import { print } from '../settling/table.ts';
import { coachByEar, meterByEar } from './by-ear.ts';
import { meterGuide } from './guides.ts';
import { head, judged, nothing, type Played, row, seedsFrom, setupOf, toleranceCents } from './runs.ts';
import { drawScene, drawTarget } from './scenes.ts';

const sampleRateHertz = 48_000;
/** Half of the players stop the other strings before a pluck. */
const dampChances = [0, 1];
const leadSeconds = 640;

type Way = {
  readonly name: string;
  readonly lead: number | null;
  readonly meter: 'once' | 'repeated' | null;
  readonly strumCheck?: boolean;
};

const ways: readonly Way[] = [
  { name: 'one pass with a plain meter', lead: null, meter: 'once' },
  { name: 'repeated passes with a plain meter', lead: null, meter: 'repeated' },
  { name: 'coach, no lead', lead: null, meter: null },
  { name: 'coach, no lead, strum check', lead: null, meter: null, strumCheck: true },
  { name: 'coach, lead for 10 min', lead: leadSeconds, meter: null },
];

interface Heard {
  readonly played: Played;
  /** How often a sound was in doubt, and the same course had to be plucked again. */
  readonly doubts: number;
}

function retuneBySound(seed: number, { lead, meter, strumCheck = false }: Way): Heard {
  const random = seededRandom(seed);
  const scene = drawScene(random);
  const wanted = drawTarget(random, scene, scene.tunings[0] ?? []);
  const setup = { ...setupOf(scene, random, wanted, 0, nothing, lead), strumCheck };
  const sounding = soundingOf({
    instrument: scene.instrument,
    stringsPerCourse: wanted.map(() => 1),
    timbres: wanted.map(() => drawTimbre(random)),
    sampleRateHertz,
    seed,
    turnCentsPerSecond: scene.player.turnCentsPerSecond,
    hiss: random.betweenLog(2e-5, 1e-3),
  });
  const player = { ...scene.player, dampChance: random.pick(dampChances) };
  const present = setup.present.map(([first = 0]) => first);
  const coach = coachByEar(setup, sampleRateHertz);
  const guide =
    meter === null
      ? coach
      : meterByEar(meterGuide(wanted, present, toleranceCents, meter === 'repeated'), [...present, ...wanted], sampleRateHertz);
  const outcome = playByEar(random, sounding, player, guide, (place) => [place, 0]);
  const aims = () =>
    meter === null ? coach.state().strings.map(({ wantedHertz, leadCents }) => wantedHertz * 2 ** (leadCents / 1200)) : wanted;
  return { played: judged(scene, wanted, 0, outcome, aims), doubts: meter === null ? coach.doubts() : 0 };
}

/** Prints the table of retunes through real samples, way by way: each takes its time. */
export function soundRetunes(seed: number, count: number): void {
  const seeds = seedsFrom(seed, count);
  for (const way of ways) {
    const heard = seeds.map((own) => retuneBySound(own, way));
    print(`Through samples: ${count} instruments × tunings, ±${toleranceCents} cents, nothing learned before`, head, [
      row(
        way.name,
        heard.map(({ played }) => played),
      ),
    ]);
    if (way.meter === null) console.log(`  ${heard.reduce((sum, { doubts }) => sum + doubts, 0)} sounds were in doubt in ${count} retunes`);
  }
}
