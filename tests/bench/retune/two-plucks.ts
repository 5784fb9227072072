// What a second pluck tells: the coach asks for a course, hears a pluck, and where it is in doubt asks for that course by name.
import { advise, type CoachState, hear } from '#shared/guidance/index.ts';
import type { Strings } from '#shared/matching/index.ts';
import { type Random, seededRandom } from '#shared/simulation/strings/index.ts';
import { print } from '../settling/table.ts';
import { beginPlain } from './lessons.ts';

interface Case {
  readonly home: Strings;
  readonly wanted: Strings;
}

/** A pluck: its pitch, and whose it is; −1 = no open string. */
type Pluck = { readonly hertz: number; readonly truth: number };
/** What is plucked when a course is asked for: first, and when it is asked for once more. `turned`: where its peg has taken it after the first pluck of a visit. */
type Scenario = { readonly first: Pluck; readonly again: Pluck; readonly turned: readonly number[] };

const frameSeconds = 0.05;
const draws = 4;
const at = (from: number, cents: number): number => from * 2 ** (cents / 1200);
const off = (heard: number, from: number): number => 1200 * Math.log2(heard / from);

const kinds: Readonly<Record<string, (random: Random, one: Case, asked: number, log: readonly number[]) => Scenario | null>> = {
  'the log knows nothing of the asked one’s start, ±1400 c': (random, { wanted }, asked) => {
    const plucked = { hertz: at(wanted[asked]?.[0] ?? 440, random.between(-1400, 1400)), truth: asked };
    return { first: plucked, again: plucked, turned: [] };
  },
  'the same, but no octave off its log or its aim': (random, { wanted }, asked, log) => {
    const plucked = { hertz: at(wanted[asked]?.[0] ?? 440, random.between(-1400, 1400)), truth: asked };
    const isOctave = [log[asked] ?? 440, wanted[asked]?.[0] ?? 440].some(
      (from) => Math.abs(Math.abs(off(plucked.hertz, from)) - 1200) < 45,
    );
    return isOctave ? null : { first: plucked, again: plucked, turned: [] };
  },
  'another plucked while the asked one is half-way': (random, { wanted }, asked, log) => {
    const other = random.pick(log.map((_, course) => course).filter((course) => course !== asked));
    const [from, to, heard] = [log[asked] ?? 440, wanted[asked]?.[0] ?? 440, log[other] ?? 440];
    const halfway = at(from, off(to, from) / 2);
    if (Math.abs(off(heard, halfway)) <= 35) return null;
    return { first: { hertz: heard, truth: other }, again: { hertz: halfway, truth: asked }, turned: [from, halfway] };
  },
  'the asked one fretted, before it was heard': (random, _, asked, log) => {
    const open = log[asked] ?? 440;
    const fretted = at(open, 100 * random.pick([1, 2, 3, 4, 5, 7]) + random.between(0, 8));
    return { first: { hertz: fretted, truth: -1 }, again: { hertz: open, truth: asked }, turned: [] };
  },
  'the asked one fretted, while it is half-way': (random, { wanted }, asked, log) => {
    const [from, to] = [log[asked] ?? 440, wanted[asked]?.[0] ?? 440];
    const halfway = at(from, off(to, from) / 2);
    const fretted = at(halfway, 100 * random.pick([1, 2, 3, 4, 5, 7]) + random.between(0, 8));
    return { first: { hertz: fretted, truth: -1 }, again: { hertz: halfway, truth: asked }, turned: [from, halfway] };
  },
};

/** Lets a pitch sound; `taken` is the course that it was believed to be, null in doubt. */
function pluck(
  random: Random,
  before: CoachState,
  hertz: number,
  from: number,
): { readonly state: CoachState; readonly taken: number | null } {
  let [state, taken]: [CoachState, number | null] = [before, null];
  for (let since = frameSeconds; since < 0.5; since += frameSeconds) {
    const atSeconds = from + since;
    state = hear(state, {
      atSeconds,
      hertz: at(hertz, random.normal(1)),
      sigmaCents: 1,
      steady: since > 0.25,
      sincePluckSeconds: since,
    }).state;
    if (state.sound?.atSeconds === atSeconds) taken = state.sound.course;
  }
  return { state, taken };
}

const answerOf = (taken: number | null, truth: number): string => (taken === null ? 'in doubt' : taken === truth ? 'right' : 'wrong');

/** What is believed after the first pluck; after the second, where in doubt; and after the peg was brought up, where still in doubt, and two more. */
function answersTo(random: Random, before: CoachState, { first, again }: Scenario): readonly string[] {
  let { state, taken } = pluck(random, before, first.hertz, 20);
  const one = answerOf(taken, first.truth);
  if (taken !== null) return [one, one, one];
  ({ state, taken } = pluck(random, state, again.hertz, 23));
  const two = answerOf(taken, again.truth);
  const brought = at(again.hertz, 60);
  for (const from of [26, 29]) if (taken === null) ({ state, taken } = pluck(random, state, brought, from));
  return [one, two, answerOf(taken, again.truth)];
}

/** Prints what was believed after the first pluck, and after the next ones where those were asked for. */
export function pluckTwice(seed: number, cases: readonly Case[]): void {
  const random = seededRandom(seed + 4);
  const rows = Object.entries(kinds).map(([kind, draw]) => {
    const counts = [0, 1, 2].map(() => new Map<string, number>());
    let all = 0;
    for (const one of Array.from({ length: draws }, () => cases).flat()) {
      let state = beginPlain(
        one.home.map(([pitch = 440]) => [at(pitch, random.normal(2))]),
        one.wanted,
      );
      const { course: asked } = advise(state);
      const scenario =
        asked === null
          ? null
          : draw(
              random,
              one,
              asked,
              one.home.map(([pitch = 440]) => pitch),
            );
      if (scenario === null) continue;
      for (const [index, hertz] of scenario.turned.entries()) state = pluck(random, state, hertz, 3 * index).state;
      all += 1;
      for (const [index, answer] of answersTo(random, state, scenario).entries())
        counts[index]?.set(answer, (counts[index].get(answer) ?? 0) + 1);
    }
    const shares = counts.flatMap((one) =>
      ['right', 'in doubt', 'wrong'].map((answer) => `${((100 * (one.get(answer) ?? 0)) / all).toFixed(2)} %`),
    );
    return [kind, `${all}`, ...shares];
  });
  print(
    'The coach asks for a course; what it believes after one pluck, after a second where in doubt, and after the peg was brought up where asked to',
    ['', 'count', 'first: right', 'in doubt', 'wrong', 'then: right', 'in doubt', 'wrong', 'at last: right', 'in doubt', 'wrong'],
    rows,
  );
}
