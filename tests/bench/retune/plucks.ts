// Whole retunes by pitch alone: what matching and the coach make of each pluck of a player who now and then plucks another course, or frets one.
import { advise, type CoachState, hear } from '#shared/guidance/index.ts';
import type { Strings } from '#shared/matching/index.ts';
import { type Random, seededRandom } from '#shared/simulation/strings/index.ts';
import { print } from '../settling/table.ts';
import { beginPlain } from './lessons.ts';

interface Case {
  readonly home: Strings;
  readonly wanted: Strings;
}

/** How the player goes about it. Shares of plucks; the log is wrong about one course by up to a fifth where `isLogWrong`. */
interface Manner {
  readonly name: string;
  readonly isSilent: boolean;
  readonly otherShare: number;
  readonly frettedShare: number;
  readonly isLogWrong: boolean;
}

const careful = { otherShare: 0, frettedShare: 0, isLogWrong: false };
const manners: readonly Manner[] = [
  { name: 'careful, turns while it sounds', isSilent: false, ...careful },
  { name: 'careful, turns in silence', isSilent: true, ...careful },
  { name: 'careless, turns while it sounds', isSilent: false, otherShare: 0.05, frettedShare: 0.02, isLogWrong: false },
  { name: 'careless, turns in silence', isSilent: true, otherShare: 0.05, frettedShare: 0.02, isLogWrong: false },
  { name: 'careful, the log is wrong about one course', isSilent: false, ...careful, isLogWrong: true },
  { name: 'careless, the log is wrong about one course', isSilent: false, otherShare: 0.05, frettedShare: 0.02, isLogWrong: true },
];

const kinds = ['the asked one', 'another', 'another of one pitch', 'fretted'] as const;
type Kind = (typeof kinds)[number];
const answers = ['right', 'in doubt', 'wrong'] as const;
type Answer = (typeof answers)[number];

const frameSeconds = 0.05;
const soundingSeconds = 2.4;
const reactionSeconds = 0.6;
/** How far a turning hand takes a string from one frame to the next, in cents. */
const strideCents = 3;
/** Nobody plucks more often than this. */
const patience = 60;
/** Two strings this near to one another no pitch tells apart, in cents. */
const alikeCents = 35;
/** A string left further off than this was not heard as itself, in cents. */
const leftOffCents = 6;

const at = (from: number, cents: number): number => from * 2 ** (cents / 1200);
const off = (heard: number, from: number): number => 1200 * Math.log2(heard / from);

interface Played {
  readonly plucks: readonly (readonly [Kind, Answer])[];
  readonly isLeftOff: boolean;
  readonly isDone: boolean;
}

function retune(random: Random, { home, wanted }: Case, manner: Manner): Played {
  const pitches = home.map(([pitch = 440]) => at(pitch, random.normal(1.5)));
  const strayed = manner.isLogWrong ? Math.floor(random.between(0, pitches.length)) : -1;
  const truth = pitches.map((pitch, course) => (course === strayed ? at(pitch, random.between(-700, 200)) : pitch));
  let state = beginPlain(
    pitches.map((pitch) => [at(pitch, random.normal(1))]),
    wanted,
  );
  const plucks: (readonly [Kind, Answer])[] = [];
  let now = 0;
  while (plucks.length < patience) {
    const { course: asked } = advise(state);
    if (asked === null) break;
    const kind = random.chance(manner.otherShare) ? 'another' : random.chance(manner.frettedShare) ? 'fretted' : 'the asked one';
    const plucked = kind === 'another' ? random.pick(truth.map((_, course) => course).filter((course) => course !== asked)) : asked;
    const fret = kind === 'fretted' ? random.pick([1, 2, 3, 4, 5]) : 0;
    const stopped = fret === 0 ? 0 : 100 * fret + random.between(0, 8);
    now += 2;
    const pitch = truth[plucked] ?? 440;
    const heard = pluck(random, state, truth, manner, { plucked, asked, stopped, now });
    state = heard.state;
    now += soundingSeconds;
    const isAlike = kind === 'another' && Math.abs(off(pitch, truth[asked] ?? pitch)) <= alikeCents;
    plucks.push([isAlike ? 'another of one pitch' : kind, answerOf(heard.taken, kind === 'fretted' ? -1 : plucked)]);
  }
  const isDone = advise(state).action === 'done';
  const isLeftOff = truth.some((pitch, course) => Math.abs(off(pitch, wanted[course]?.[0] ?? pitch)) > leftOffCents);
  return { plucks, isDone, isLeftOff };
}

const answerOf = (taken: number | null, truth: number): Answer => (taken === null ? 'in doubt' : taken === truth ? 'right' : 'wrong');

/** One pluck and what its player does to the peg of the course asked for; `taken` is the course that it was believed to be, or null. */
function pluck(
  random: Random,
  before: CoachState,
  truth: number[],
  { isSilent }: Manner,
  { plucked, asked, stopped, now }: { plucked: number; asked: number; stopped: number; now: number },
): { readonly state: CoachState; readonly taken: number | null } {
  let state = before;
  let taken: number | null = null;
  let told = 0;
  for (let since = frameSeconds; since < soundingSeconds; since += frameSeconds) {
    const atSeconds = now + since;
    const hertz = at(truth[plucked] ?? 440, stopped + random.normal(0.3));
    const steady = since > 0.25 && told < reactionSeconds;
    state = hear(state, { atSeconds, hertz, sigmaCents: 0.3, steady, sincePluckSeconds: since }).state;
    if (state.sound?.atSeconds === atSeconds) taken = state.sound.course;
    if (advise(state).course !== asked) return { state, taken };
    const turn = toTurn(state);
    told = turn === null ? 0 : told + frameSeconds;
    if (turn === null || isSilent || told < reactionSeconds) continue;
    truth[asked] = at(truth[asked] ?? 440, Math.max(-strideCents, Math.min(strideCents, turn)) + random.normal(0.3));
  }
  if (state.doubt?.sentence.includes('bring it up a little') === true) truth[asked] = at(truth[asked] ?? 440, random.between(40, 80));
  const turn = toTurn(state);
  if (isSilent && turn !== null) truth[asked] = at(truth[asked] ?? 440, turn * (1 + random.normal(0.07)) + random.normal(0.8));
  return { state, taken };
}

/** How far the peg is to be turned, in cents; null where it is not. A string that was stopped above its aim is loosened. */
function toTurn(state: CoachState): number | null {
  const { action, centsToGo } = advise(state);
  const isTold = action === 'tighten' || action === 'loosen' || (action === 'stop' && (centsToGo ?? 0) < 0);
  return isTold ? centsToGo : null;
}

const percent = (part: number, all: number): string => (all === 0 ? '–' : `${((100 * part) / all).toFixed(2)} %`);

/** Prints, for players of several manners, what became of their plucks and their retunes. */
export function pluckRetunes(seed: number, cases: readonly Case[], count: number): void {
  const rows = manners.flatMap((manner, index) => {
    const random = seededRandom(seed + 3 + index);
    const played = Array.from({ length: count }, () => retune(random, random.pick(cases), manner));
    const numbers = played.map(({ plucks }) => plucks.length).toSorted((a, b) => a - b);
    return kinds.flatMap((kind) => {
      const mine = played.flatMap(({ plucks }) => plucks.filter(([one]) => one === kind));
      if (mine.length === 0) return [];
      const isFirst = kind === 'the asked one';
      return [
        [
          isFirst ? manner.name : '',
          kind,
          `${mine.length}`,
          ...answers.map((answer) => percent(mine.filter(([, one]) => one === answer).length, mine.length)),
          ...(isFirst
            ? [
                `${numbers[Math.floor(count / 2)]} / ${numbers[Math.floor(0.95 * count)]}`,
                percent(played.filter(({ isLeftOff, isDone }) => isDone && isLeftOff).length, count),
                percent(played.filter(({ isDone }) => !isDone).length, count),
              ]
            : ['', '', '']),
        ],
      ];
    });
  });
  print(
    `Whole retunes, ${count} a manner: each pluck, and whose it was believed to be`,
    ['player', 'plucked', 'plucks', ...answers, 'plucks a retune, median / 95th', 'done, a course left off', 'not done'],
    rows,
  );
}
