import { createStore } from 'zustand/vanilla';
import type { Host, Output, Overview, Settings } from '#shared/contract/index.ts';
import { type Advice, advise, type CoachEvent, type CoachState, type Effect, hear, listenFor, step } from '#shared/guidance/index.ts';
import { type Reading, readingRow, type Turn, turnRow } from '#shared/log/index.ts';
import type { Match } from '#shared/matching/index.ts';
import type { PitchEvent } from '#shared/pitch/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { aloud, hushVoice } from './aloud.ts';
import { type Expected, expectations } from './expected.ts';
import { lessonsOf, type StringLesson } from './lessons.ts';
import { append } from './outbox.ts';
import { cueLanded, listen, onPitch, type SoundChoice, session, stopListening } from './session.ts';
import type { Plan } from './plan.ts';
import type { TuningHere } from './strings.ts';
import { undershootOf } from './undershoot.ts';

/** A retune under way: from where to where, what the coach makes of it, and what was reached so far. */
export type Retuning = {
  readonly id: string;
  readonly overview: Overview;
  readonly from: TuningHere;
  readonly to: TuningHere;
  readonly startedAt: number;
  readonly finishedAt: number | null;
  readonly coach: CoachState;
  readonly advice: Advice;
  /** The latest live frame and what it was taken for; null while nothing sounds. */
  readonly live: Live | null;
  readonly reached: readonly Reading[];
  /** What the past taught of every string, by its place in the coach's strings. */
  readonly lessons: readonly StringLesson[];
  /** Until when is looked ahead, in seconds of the epoch, and what the strings that have landed are expected to do until then. */
  readonly untilSeconds: number;
  readonly expected: readonly Expected[];
};

export type Live = { readonly hertz: number; readonly sigmaCents: number; readonly match: Match; readonly atMilliseconds: number };

/** The retune under way, or null. */
export const retuning = createStore<{ readonly now: Retuning | null }>(() => ({ now: null }));

type Begin = {
  readonly host: Host;
  readonly overview: Overview;
  readonly tuning: Tuning | null;
  readonly plan: Plan;
  readonly sound: SoundChoice;
  readonly settings: Settings;
  /** The log of the string set, to learn from, and until when is looked ahead, in epoch milliseconds. */
  readonly log: Output<'log.read'>;
  readonly until: number;
  /** Whether whichever course is plucked is taken, from the start. */
  readonly isTouchUp: boolean;
};

const milliseconds = (): number => Date.now();
let leave: (() => void) | null = null;

/** Begins a retune as planned and starts to listen. */
export async function beginRetune({ host, overview, tuning, plan, sound, settings, log, until, isTouchUp }: Begin): Promise<void> {
  const startedAt = milliseconds();
  const { from, to } = plan;
  const setup = { ...plan.coach.setup, undershootCents: undershootOf(overview.instrument.id) };
  const planned = { ...plan.coach, setup };
  const coach = isTouchUp ? step(planned, { kind: 'follow', atSeconds: startedAt / 1000, on: true }).state : planned;
  const id = crypto.randomUUID();
  await host.ask('log.beginRetune', {
    id,
    instrumentId: overview.instrument.id,
    stringSetId: overview.stringSet.id,
    fromTuningId: overview.instrument.tuningId,
    toTuningId: tuning?.id ?? null,
    startedAt,
    finishedAt: null,
    wantedHertz: to.hertz.map((strings) => [...strings]),
  });
  aloud.setState({ knocks: settings.soundCues });
  const lessons = lessonsOf(overview, log, startedAt);
  const begun = { id, overview, from, to, startedAt, finishedAt: null, lessons, untilSeconds: until / 1000 };
  retuning.setState({ now: { ...begun, coach, advice: advise(coach), live: null, reached: [], expected: [] } });
  leave = onPitch((event) => takePitch(host, event));
  await listen(sound, listenFor(coach));
}

/** Goes on with the retune, heard through something else. */
export async function hearThrough(sound: SoundChoice): Promise<void> {
  const { now } = retuning.getState();
  stopListening();
  if (now !== null && now.finishedAt === null) await listen(sound, listenFor(now.coach));
}

function hushRetune(): void {
  leave?.();
  leave = null;
  hushVoice();
  stopListening();
}

/** Ends a retune, finished or not, and stops listening. */
export function endRetune(): void {
  hushRetune();
  retuning.setState({ now: null });
}

/** One of the player's own steps: skip, back, pause … */
export function tell(host: Host, event: DistributiveOmit<Exclude<CoachEvent, { kind: 'reading' }>, 'atSeconds'>): void {
  const { now } = retuning.getState();
  if (now === null) return;
  take(host, now, step(now.coach, { ...event, atSeconds: milliseconds() / 1000 }));
}

type DistributiveOmit<Union, Key extends PropertyKey> = Union extends unknown ? Omit<Union, Key> : never;

function takePitch(host: Host, event: PitchEvent): void {
  const { now } = retuning.getState();
  if (now === null) return;
  if (event.kind === 'refusal') {
    if (now.live !== null && event.reason === 'silence') retuning.setState({ now: { ...now, live: null } });
    return;
  }
  const heard = hear(now.coach, event);
  const live: Live = { hertz: event.hertz, sigmaCents: event.sigmaCents, match: heard.match, atMilliseconds: milliseconds() };
  take(host, { ...now, live }, heard);
}

function take(
  host: Host,
  now: Retuning,
  stepped: { readonly state: CoachState; readonly advice: Advice; readonly effects: readonly Effect[] },
): void {
  const rows = rowsOf(now, stepped.effects);
  const isDone = stepped.state.phase === 'done' && now.finishedAt === null;
  const finishedAt = isDone ? milliseconds() : now.finishedAt;
  const isElsewhere = stepped.state.queue !== now.coach.queue;
  const expected = isElsewhere ? expectations(stepped.state, now.lessons, now.untilSeconds) : now.expected;
  const reached = rows.readings.length > 0 ? [...now.reached, ...rows.readings] : now.reached;
  retuning.setState({ now: { ...now, coach: stepped.state, advice: stepped.advice, finishedAt, reached, expected } });
  if (rows.readings.length + rows.turns.length > 0) void append(host, rows);
  if (isElsewhere) session.getState().listening?.expect(listenFor(stepped.state));
  if (aloud.getState().knocks && stepped.effects.some((effect) => effect.kind === 'cue' && effect.cue === 'landed')) cueLanded();
  if (isDone && finishedAt !== null) {
    hushRetune();
    void finish(host, now.id, finishedAt);
  }
}

/** The instrument is in its new tuning. Should the host not answer now, the rows of the log still tell. */
async function finish(host: Host, id: string, finishedAt: number): Promise<void> {
  await host
    .ask('log.finishRetune', { id, finishedAt })
    .catch(() => new Promise((resolve) => setTimeout(resolve, 2000)).then(() => finish(host, id, finishedAt)));
}

const stamp = () => ({ id: crypto.randomUUID(), at: milliseconds() });

function rowsOf(
  { id: retuneId, overview, to }: Retuning,
  effects: readonly Effect[],
): { readonly readings: readonly Reading[]; readonly turns: readonly Turn[] } {
  const stringSetId = overview.stringSet.id;
  return {
    readings: effects.flatMap((effect) => {
      const wantedHertz = effect.kind === 'record' ? to.hertz[effect.course]?.[effect.string] : undefined;
      if (effect.kind !== 'record' || wantedHertz === undefined) return [];
      return [readingRow(effect, { ...stamp(), stringSetId, retuneId, wantedHertz, source: 'pluck' })];
    }),
    turns: effects.flatMap((effect) => (effect.kind === 'turned' ? [turnRow(effect, { ...stamp(), retuneId })] : [])),
  };
}
