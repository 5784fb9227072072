// Whatever comes: a coach under random events, and whether a player who does as told still gets to the end.
import { type Advice, advise, type CoachEvent, type CoachState, hear, type Setup, start, step } from '#shared/guidance/index.ts';
import { type InstrumentPreset, instrumentPresets } from '#shared/instruments/index.ts';
import { type Random, seededRandom } from '#shared/simulation/strings/index.ts';
import { breakShare, confirmShare, linearDensity } from '#shared/tension/index.ts';
import { wantedHertz } from '#shared/tunings/index.ts';
import { hertz, millimetres } from '#shared/units/index.ts';
import { lessonsOf } from './lessons.ts';

/** One run: how many events it took, and what was wrong, in sentences; empty when nothing was. */
export type FuzzRun = { readonly events: number; readonly faults: readonly string[] };

const at = (from: number, cents: number): number => from * 2 ** (cents / 1200);
const frameSeconds = 0.05;
/** What a share may be over by, for numbers that were rounded on their way. */
const rounding = 1e-9;

const justBelow = confirmShare - 1e-4;

interface Scene {
  readonly preset: InstrumentPreset;
  readonly places: readonly (readonly [number, number])[];
  readonly wanted: readonly (readonly number[])[];
  readonly start: CoachState;
  readonly shareAt: (course: number, string: number, hertz: number) => number | null;
}

function drawScene(random: Random): Scene {
  const preset = random.pick(instrumentPresets);
  const home = wantedHertz(
    preset.courses.map(({ home: pitches }) => pitches),
    null,
    hertz(440),
  );
  const shareAt = (course: number, string: number, pitch: number): number | null => {
    const row = preset.courses[course];
    const facts = row?.strings[string];
    if (row === undefined || facts === undefined) return null;
    return breakShare(facts, millimetres(row.scaleLengthMillimetres ?? preset.scaleLengthMillimetres), hertz(pitch));
  };
  // No tuning that would need a confirmation before it begins; now and then a course that just needs none.
  const atLimit = random.chance(0.2) ? Math.floor(random.between(0, home.length)) : null;
  const wanted = home.map((strings, course) => {
    const semitones = random.pick([-5, -3, -2, -1, 0, 0, 0, 1, 2, 3]);
    const isWithin = strings.every((pitch, string) => (shareAt(course, string, at(pitch, 100 * semitones)) ?? 0) <= confirmShare);
    const limits = strings.map((pitch, string) => 600 * Math.log2(justBelow / (shareAt(course, string, pitch) ?? justBelow)));
    if (course === atLimit && limits.every((cents) => Math.abs(cents) < 700)) return strings.map((pitch) => at(pitch, Math.min(...limits)));
    return strings.map((pitch) => at(pitch, isWithin ? 100 * semitones : 0));
  });
  const setup: Setup = {
    instrument: {
      scaleLengthMillimetres: preset.scaleLengthMillimetres,
      courses: preset.courses.map(({ strings, scaleLengthMillimetres }) => ({
        ...(scaleLengthMillimetres === undefined ? {} : { scaleLengthMillimetres }),
        strings: strings.map((string) => ({
          ...string,
          daysSinceChange: random.pick([null, 1, 60]),
          linearDensityKilogramsPerMetre: random.chance(0.8) ? (linearDensity(string)?.value ?? null) : null,
        })),
      })),
    },
    present: home.map((strings) => strings.map((pitch) => at(pitch, random.normal(random.pick([2, 30]))))),
    wanted,
    toleranceCents: 3,
    atSeconds: 0,
    lead: random.chance(0.4) ? { untilSeconds: 900, capCents: 15 } : null,
    undershootCents: random.chance(0.3) ? 20 : 0,
    strumCheck: random.chance(0.5),
  };
  const places = home.flatMap((strings, course) => strings.map((_, string) => [course, string] as const));
  return { preset, places, wanted, start: start(setup, lessonsOf(setup)), shareAt };
}

/** What is wrong with a state and its advice. */
function faultsOf({ shareAt, wanted }: Scene, state: CoachState, advice: Advice): readonly string[] {
  const { action, course, string, aimHertz, centsToGo } = advice;
  const faults: string[] = [];
  const isAlone = action === 'done' || action === 'strum' || (action === 'wait' && state.phase === 'strumming');
  if ((course === null) !== isAlone) faults.push(`${action} names course ${course}`);
  if ((action === 'done') !== (state.phase === 'done')) faults.push(`${action} while ${state.phase}`);
  if (state.strings.some((one) => !(Number.isFinite(one.aimHertz) && one.aimHertz > 0 && one.presentHertz > 0)))
    faults.push('an aim or a pitch is no number');
  if (advice.why === '') faults.push('no reason is given');
  if (course === null || string === null || aimHertz === null) return faults;
  const aimed = shareAt(course, string, aimHertz);
  const bound = Math.max(confirmShare, shareAt(course, string, wanted[course]?.[string] ?? aimHertz) ?? 0);
  if (aimed !== null && aimed > bound + rounding) faults.push(`an aim at ${(100 * aimed).toFixed(2)} % of what breaks the string`);
  if (action === 'tighten' && centsToGo !== null && centsToGo < 0) faults.push('tighten a string that is above its aim');
  if (action === 'loosen' && centsToGo !== null && centsToGo > 0) faults.push('loosen a string that is below its aim');
  return faults;
}

function drawEvent(random: Random, scene: Scene, state: CoachState, atSeconds: number): CoachEvent {
  const [course, string] = random.pick(scene.places);
  const kind = random.pick([
    'skip',
    'back',
    'pause',
    'resume',
    'resume',
    'confirm',
    'restring',
    'tick',
    'follow',
    'strum',
    'strum-again',
    'pluck-instead',
    'strum-check',
    'reading',
    'reading',
  ] as const);
  switch (kind) {
    case 'follow':
    case 'strum-check':
      return { kind, atSeconds, on: random.chance(0.5) };
    case 'restring':
      return { kind, atSeconds, course, string };
    case 'strum':
      return {
        kind,
        atSeconds,
        courses: scene.wanted.map((strings) =>
          strings.map((pitch) =>
            random.chance(0.3)
              ? { refusal: random.pick(['two sounds', 'unclear', 'silence']) }
              : { hertz: at(pitch, random.normal(random.pick([1, 8, 40]))), sigmaCents: random.betweenLog(0.02, 1.5) },
          ),
        ),
      };
    case 'reading':
      return {
        kind,
        atSeconds,
        course,
        string,
        hertz: drawPitch(random, scene, state, course, string),
        sigmaCents: random.betweenLog(0.05, 6),
        steady: random.chance(0.6),
      };
    default:
      return { kind, atSeconds };
  }
}

/** A pitch near where a string is, where it is wanted, or anywhere. */
function drawPitch(random: Random, { wanted }: Scene, state: CoachState, course: number, string: number): number {
  const one = state.strings.find((other) => other.course === course && other.string === string);
  const from = random.pick([one?.presentHertz, one?.aimHertz, wanted[course]?.[string]]) ?? 440;
  return Math.max(20, at(from, random.normal(random.pick([0.5, 4, 30, 400]))));
}

/** A pluck as frames, of the right string or a wrong one, through matching. */
function pluck(random: Random, scene: Scene, before: CoachState, fromSeconds: number, check: (state: CoachState, advice: Advice) => void) {
  let state = before;
  const asked = advise(state);
  const [course, string] = asked.course === null || random.chance(0.3) ? random.pick(scene.places) : [asked.course, asked.string ?? 0];
  let pitch = drawPitch(random, scene, state, course, string);
  const drift = random.pick([0, 0, 0, -3, 3]);
  const hasOnset = random.chance(0.9);
  const count = Math.floor(random.between(1, 30));
  for (let frame = 1; frame <= count; frame += 1) {
    pitch = at(pitch, drift + random.normal(0.2));
    const since = frame * frameSeconds;
    const heard = hear(state, {
      atSeconds: fromSeconds + since,
      hertz: pitch,
      sigmaCents: random.betweenLog(0.05, 2),
      steady: drift === 0 && frame > 4,
      sincePluckSeconds: hasOnset ? since : null,
    });
    state = heard.state;
    check(state, heard.advice);
  }
  return { state, count, untilSeconds: fromSeconds + count * frameSeconds };
}

/** Runs one scene: events at random, then a player who does as told. */
export function fuzzRun(seed: number): FuzzRun {
  const random = seededRandom(seed);
  const scene = drawScene(random);
  const faults: string[] = [];
  const check = (state: CoachState, advice: Advice) => {
    for (const fault of faultsOf(scene, state, advice)) if (!faults.includes(fault)) faults.push(fault);
  };
  let [state, now, events] = [scene.start, 0, 0];
  check(state, advise(state));
  const rounds = Math.floor(random.between(4, 40));
  for (let round = 0; round < rounds; round += 1) {
    // Now and then the microphone is gone for a while, or its clock begins anew.
    now = random.chance(0.05) ? random.pick([now + 400, 0]) : now + random.between(0.02, 3);
    if (random.chance(0.5)) {
      const heard = pluck(random, scene, state, now, check);
      [state, now, events] = [heard.state, heard.untilSeconds, events + heard.count];
    } else {
      const next = step(state, drawEvent(random, scene, state, now));
      [state, events] = [next.state, events + 1];
      check(state, next.advice);
    }
  }
  if (!reachesTheEnd(random, scene, state, Math.max(now, state.nowSeconds) + 5, check))
    faults.push(`no way to the end from ${state.phase}`);
  return { events, faults };
}

/** No string stands further than this from where it is wanted, whatever was heard, in cents. */
const furthestCents = 1100;
const within = (pitch: number, wanted: number): number =>
  at(wanted, Math.max(-furthestCents, Math.min(furthestCents, 1200 * Math.log2(pitch / wanted))));

/** Visits that a player has patience for: every string several times. */
const visitsPerString = 14;

/** A player who does as told, with strings that stay where they are put. */
function reachesTheEnd(
  random: Random,
  scene: Scene,
  from: CoachState,
  fromSeconds: number,
  check: (state: CoachState, advice: Advice) => void,
): boolean {
  const pitches = new Map(from.strings.map((one) => [`${one.course}.${one.string}`, within(one.presentHertz, one.wantedHertz)]));
  let [state, now] = [from, fromSeconds];
  const tell = (event: CoachEvent) => {
    state = step(state, event).state;
    check(state, advise(state));
  };
  for (let visit = 0; visit < visitsPerString * scene.places.length; visit += 1) {
    const asked = advise(state);
    now += 2;
    if (asked.action === 'done') return true;
    if (asked.action === 'wait' && state.paused) tell({ kind: 'resume', atSeconds: now });
    if (asked.action === 'strum') {
      const courses = scene.wanted.map((strings, course) =>
        strings.map((_, string) =>
          random.chance(0.2) ? { refusal: 'unclear' } : { hertz: pitches.get(`${course}.${string}`) ?? 440, sigmaCents: 0.2 },
        ),
      );
      tell({ kind: 'strum', atSeconds: now, courses });
    }
    const { course, string } = advise(state);
    if (course === null || string === null) continue;
    const key = `${course}.${string}`;
    for (let since = frameSeconds; since < 3; since += frameSeconds) {
      const heard = hear(state, {
        atSeconds: now + since,
        hertz: at(pitches.get(key) ?? 440, random.normal(0.1)),
        sigmaCents: 0.2,
        steady: since > 0.25,
        sincePluckSeconds: since,
      });
      state = heard.state;
      check(state, heard.advice);
      const { action, centsToGo } = heard.advice;
      if (heard.advice.course !== course || heard.advice.string !== string) break;
      const isToTurn = action === 'tighten' || action === 'loosen' || (action === 'stop' && (centsToGo ?? 0) < 0);
      // The peg goes so far between two frames.
      if (isToTurn && since > 0.6) pitches.set(key, at(pitches.get(key) ?? 440, Math.max(-20, Math.min(20, centsToGo ?? 0))));
      if (action === 'stop' && (centsToGo ?? 0) >= 0) tell({ kind: 'confirm', atSeconds: now + since });
    }
    now += 3;
  }
  return advise(state).action === 'done';
}
