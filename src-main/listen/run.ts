import { courseNumber } from '#shared/instruments/index.ts';
import { type CoachState, type Effect, hear, listenFor, start, step } from '#shared/guidance/index.ts';
import { type LogRows, readingRow, stringHistory, turnRow } from '#shared/log/index.ts';
import { isNewPluck, pluckedOf } from '#shared/matching/index.ts';
import { createPitchTracker, type PitchFrame } from '#shared/pitch/index.ts';
import type { Recording } from '#shared/recording/index.ts';
import { assess, type Verdict } from '#shared/settling/index.ts';
import { coachInstrument } from '#shared/strung/index.ts';
import { wantedHertz } from '#shared/tunings/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import type { Question } from './arguments.ts';

/** What became of one string in the recording. Cents are from wanted, positive = sharp; null where it was not heard standing still. */
export type CourseReport = {
  readonly courseNumber: number;
  readonly string: number;
  readonly from: string;
  readonly to: string;
  readonly wantedHertz: number;
  readonly hertz: number | null;
  readonly deviationCents: number | null;
  readonly sigmaCents: number | null;
  readonly landed: boolean;
  readonly verdict: Verdict;
  /** How far it is expected to move within the horizon, positive = sharp. */
  readonly driftCents: number | null;
  readonly why: string;
};

export type Report = {
  readonly frames: number;
  readonly seconds: number;
  readonly log: LogRows;
  readonly courses: readonly CourseReport[];
};

/** Samples pushed at a time, about as many as a microphone brings. */
const hop = 512;
/** The horizon of the verdicts, in seconds. */
const horizonSeconds = 1800;

/** Takes a recording all the way: samples → frames → courses → coach → log → verdicts, without a window. */
export function run(question: Question, recording: Recording): Report {
  const { preset, stringSet, wanted, from, toleranceCents } = question;
  const reference = hertz(question.referenceHertz);
  const [present, aims] = [wantedHertz(from, null, reference), wantedHertz(wanted, null, reference)];
  const instrument = coachInstrument(preset, stringSet, () => null);
  let state = step(start({ instrument, present, wanted: aims, toleranceCents, atSeconds: 0 }), {
    kind: 'follow',
    atSeconds: 0,
    on: true,
  }).state;
  const tracker = createPitchTracker({ sampleRateHertz: recording.sampleRateHertz, hint: listenFor(state) });
  const heard = new Map<string, PitchFrame>();
  const effects: Effect[] = [];
  const samples = mono(recording);
  let frames = 0;
  for (let first = 0; first < samples.length; first += hop) {
    for (const event of tracker.push(samples.subarray(first, first + hop))) {
      if (event.kind === 'refusal') continue;
      frames += 1;
      const next = hear(state, event);
      if (next.match.kind === 'match' && event.steady) keepSurest(heard, keyOf(next.match), event);
      if (next.state.queue !== state.queue) tracker.expect(listenFor(next.state));
      effects.push(...next.effects);
      state = next.state;
    }
  }
  const seconds = samples.length / recording.sampleRateHertz;
  const log = logOf([...effects, ...unrecorded(heard, effects)], aims);
  return { frames, seconds, log, courses: courseReports(question, state, heard, log, seconds) };
}

const keyOf = ({ course, string }: { readonly course: number; readonly string: number }): string => `${course}.${string}`;

/** Of the latest pluck of a string, the frame with the smallest sigma. */
function keepSurest(heard: Map<string, PitchFrame>, key: string, frame: PitchFrame): void {
  const before = heard.get(key);
  if (before === undefined || isNewPluck(pluckedOf(before), frame) || frame.sigmaCents <= before.sigmaCents) heard.set(key, frame);
}

/** Strings that were heard standing still, but away from their aim: they are read all the same. */
function unrecorded(heard: ReadonlyMap<string, PitchFrame>, effects: readonly Effect[]): readonly Effect[] {
  const recorded = new Set(effects.flatMap((effect) => (effect.kind === 'record' ? [keyOf(effect)] : [])));
  return [...heard].flatMap(([key, { atSeconds, hertz: heardHertz, sigmaCents }]) => {
    const [course = 0, string = 0] = key.split('.').map(Number);
    return recorded.has(key) ? [] : [{ kind: 'record', course, string, atSeconds, hertz: heardHertz, sigmaCents } as const];
  });
}

/** All channels together. */
function mono({ channels }: Recording): Float32Array {
  const mixed = new Float32Array(channels[0]?.length ?? 0);
  for (const channel of channels)
    for (const [index, sample] of channel.entries()) mixed[index] = (mixed[index] ?? 0) + sample / channels.length;
  return mixed;
}

const stamp = (atSeconds: number) => ({ id: crypto.randomUUID(), at: Math.round(atSeconds * 1000) });

function logOf(effects: readonly Effect[], aims: readonly (readonly number[])[]): LogRows {
  const [stringSetId, retuneId] = ['recorded', 'recorded'];
  return {
    retunes: [
      {
        id: retuneId,
        instrumentId: 'recorded',
        stringSetId,
        fromTuningId: null,
        toTuningId: null,
        startedAt: 0,
        finishedAt: null,
        wantedHertz: aims.map((strings) => [...strings]),
      },
    ],
    turns: effects.flatMap((effect) => (effect.kind === 'turned' ? [turnRow(effect, { ...stamp(effect.atSeconds), retuneId })] : [])),
    readings: effects.flatMap((effect) => {
      const aim = effect.kind === 'record' ? aims[effect.course]?.[effect.string] : undefined;
      return effect.kind === 'record' && aim !== undefined
        ? [readingRow(effect, { ...stamp(effect.atSeconds), stringSetId, retuneId, wantedHertz: aim, source: 'recording' })]
        : [];
    }),
  };
}

function courseReports(
  { stringSet, from, wanted, toleranceCents }: Question,
  state: CoachState,
  heard: ReadonlyMap<string, PitchFrame>,
  log: LogRows,
  seconds: number,
): readonly CourseReport[] {
  const verdicts = assess({
    courses: state.strings.map(({ course, string }) => {
      const facts = stringSet.courses[course]?.strings[string];
      return {
        string: { material: facts?.material ?? 'nylon', wound: facts?.wound ?? false, daysSinceChange: null },
        ...stringHistory(log, course, string),
      };
    }),
    nowSeconds: seconds,
    policy: { toleranceCents, horizonSeconds },
  });
  return state.strings.map(({ course, string, aimHertz, landedAtSeconds }, index) => {
    const last = heard.get(keyOf({ course, string }));
    const verdict = verdicts[index];
    return {
      courseNumber: courseNumber(course, stringSet.courses.length),
      string,
      from: from[course]?.[string] ?? '',
      to: wanted[course]?.[string] ?? '',
      wantedHertz: aimHertz,
      hertz: last?.hertz ?? null,
      deviationCents: last === undefined ? null : centsBetween(hertz(last.hertz), hertz(aimHertz)),
      sigmaCents: last?.sigmaCents ?? null,
      landed: landedAtSeconds !== null,
      verdict: verdict?.verdict ?? 'unheard',
      driftCents: verdict?.driftCents ?? null,
      why: verdict?.why ?? '',
    };
  });
}
