import { createStore } from 'zustand/vanilla';
import type { Host, Overview, Settings } from '#shared/contract/index.ts';
import {
  type Advice,
  advise,
  type CoachEvent,
  type CoachState,
  type Effect,
  hear,
  listenFor,
  listenForStrum,
  step,
} from '#shared/guidance/index.ts';
import type { Reading } from '#shared/log/index.ts';
import type { Match } from '#shared/matching/index.ts';
import type { PitchEvent } from '#shared/pitch/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { aloud, hushVoice } from './aloud.ts';
import { type Expected, expectations } from './expected.ts';
import { append } from './outbox.ts';
import { cueLanded, listen, onPitch, type SoundChoice, session, stopListening } from './session.ts';
import type { Plan } from './plan.ts';
import { retuneRows } from './retune-rows.ts';
import { retuneEnd } from './retune-end.ts';
import { type TuningHere, tuningOn } from './strings.ts';
import { keepStrumsAtEnd } from './strum-check.ts';
import { awaitStrum, isStrum, missed, strumRings, type StrumWatch, watchStrum } from './strum-watch.ts';
import { undershootOf } from './undershoot.ts';

/** A retune under way: from where to where, what the coach makes of it, and what was reached so far. */
export type Retuning = {
  readonly id: string;
  readonly overview: Overview;
  readonly from: TuningHere;
  readonly to: TuningHere;
  /** The library's tuning; `to` leaves courses of it out where only the others are turned. */
  readonly whole: TuningHere;
  readonly startedAt: number;
  readonly finishedAt: number | null;
  readonly coach: CoachState;
  readonly advice: Advice;
  /** The latest live frame and what it was taken for; null while nothing sounds. */
  readonly live: Live | null;
  readonly reached: readonly Reading[];
  /** The strum that is waited for; null while courses are plucked. */
  readonly strum: StrumWatch | null;
  /** Strings that the player said are new. */
  readonly renewed: readonly { readonly course: number; readonly string: number }[];
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
  /** Until when is looked ahead, in epoch milliseconds. */
  readonly until: number;
  /** Whether whichever course is plucked is taken, from the start. */
  readonly isTouchUp: boolean;
};

const milliseconds = (): number => Date.now();
let leave: (() => void) | null = null;

/** Begins a retune as planned and starts to listen. */
export async function beginRetune({ host, overview, tuning, plan, sound, settings, until, isTouchUp }: Begin): Promise<void> {
  const startedAt = milliseconds();
  const { from, to } = plan;
  // It may have been chosen otherwise since the plan was made.
  const planned = { ...plan.coach, setup: { ...plan.coach.setup, undershootCents: undershootOf(overview.instrument) } };
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
  const whole = tuningOn(overview, tuning, settings) ?? to;
  const begun = { id, overview, from, to, whole, startedAt, finishedAt: null, untilSeconds: until / 1000 };
  const strum = coach.phase === 'strumming' ? awaitStrum(startedAt / 1000) : null;
  retuning.setState({ now: { ...begun, coach, advice: advise(coach), live: null, reached: [], strum, renewed: [], expected: [] } });
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
  const { renewed } = now;
  const told = event.kind === 'restring' ? { ...now, renewed: [...renewed, { course: event.course, string: event.string }] } : now;
  take(host, told, step(now.coach, { ...event, atSeconds: milliseconds() / 1000 }));
}

/** Whether the retune ends with one strum of all strings; from now on, and for the one under way. */
export function strumAtEnd(host: Host, isOn: boolean): void {
  keepStrumsAtEnd(isOn);
  tell(host, { kind: 'strum-check', on: isOn });
}

type DistributiveOmit<Union, Key extends PropertyKey> = Union extends unknown ? Omit<Union, Key> : never;

/** Leaves every string that is still to be visited as it is. */
export function leaveTheRest(host: Host): void {
  for (const _ of retuning.getState().now?.coach.queue ?? []) tell(host, { kind: 'skip' });
}

function takePitch(host: Host, event: PitchEvent): void {
  const { now } = retuning.getState();
  if (now === null) return;
  if (now.strum !== null) return takeStrumming(host, now, now.strum, event);
  if (event.kind === 'refusal') {
    if (now.live !== null && event.reason === 'silence') retuning.setState({ now: { ...now, live: null } });
    return;
  }
  const heard = hear(now.coach, event);
  const live: Live = { hertz: event.hertz, sigmaCents: event.sigmaCents, match: heard.match, atMilliseconds: milliseconds() };
  take(host, { ...now, live }, heard);
}

function takeStrumming(host: Host, now: Retuning, before: StrumWatch, event: PitchEvent): void {
  if (now.coach.paused) {
    if (before.beganAtSeconds !== null) retuning.setState({ now: { ...now, strum: awaitStrum(event.atSeconds) } });
    return;
  }
  const { watch, isReady } = watchStrum(before, event, strumRings(now.to.hertz));
  if (isReady) void readStrum(host, now, before);
  if (watch !== before) retuning.setState({ now: { ...now, strum: watch } });
}

/** The strum that is being read; the events go on meanwhile. */
let reading: StrumWatch | null = null;

async function readStrum(host: Host, { id, coach, to }: Retuning, watch: StrumWatch): Promise<void> {
  if (reading === watch) return;
  reading = watch;
  const courses = await session.getState().listening?.readStrum(listenForStrum(coach), strumRings(to.hertz).lastSeconds);
  const { now } = retuning.getState();
  if (now === null || now.id !== id || now.strum !== watch) return;
  const atSeconds = milliseconds() / 1000;
  if (courses === null || courses === undefined || !isStrum(watch, courses))
    retuning.setState({ now: { ...now, strum: missed(watch, { atSeconds }) } });
  else take(host, now, step(now.coach, { kind: 'strum', atSeconds, courses }));
}

function take(
  host: Host,
  now: Retuning,
  stepped: { readonly state: CoachState; readonly advice: Advice; readonly effects: readonly Effect[] },
): void {
  const rows = retuneRows(now, stepped.effects);
  const isDone = stepped.state.phase === 'done' && now.finishedAt === null;
  const finishedAt = isDone ? milliseconds() : now.finishedAt;
  const isElsewhere = stepped.state.queue !== now.coach.queue;
  const expected = isElsewhere ? expectations(stepped.state, now.untilSeconds) : now.expected;
  const reached = rows.readings.length > 0 ? [...now.reached, ...rows.readings] : now.reached;
  const isStrumming = stepped.state.phase === 'strumming';
  // What sounds now is not of the strum that is asked for.
  const strum = isStrumming ? (now.strum ?? awaitStrum(stepped.state.nowSeconds)) : null;
  const live = isStrumming ? null : now.live;
  retuning.setState({ now: { ...now, coach: stepped.state, advice: stepped.advice, finishedAt, reached, strum, live, expected } });
  if (rows.readings.length + rows.turns.length > 0) void append(host, rows);
  if (isElsewhere) session.getState().listening?.expect(listenFor(stepped.state));
  if (aloud.getState().knocks && stepped.effects.some((effect) => effect.kind === 'cue' && effect.cue === 'landed')) cueLanded();
  if (isDone && finishedAt !== null) {
    hushRetune();
    // One that brought the instrument nowhere stays in the log as begun and not finished.
    if (retuneEnd({ ...now, coach: stepped.state }).isRetuned) void finish(host, now.id, finishedAt);
  }
}

/** The instrument is in its new tuning. Should the host not answer now, the rows of the log still tell. */
async function finish(host: Host, id: string, finishedAt: number): Promise<void> {
  await host
    .ask('log.finishRetune', { id, finishedAt })
    .catch(() => new Promise((resolve) => setTimeout(resolve, 2000)).then(() => finish(host, id, finishedAt)));
}
