import type { Hint, PitchEvent } from '#shared/pitch/index.ts';
import type { HearingWord } from './hearing.ts';
import { hearingWord, hearLevel, hearPitch, nothingHeard } from './hearing.ts';
import type { Level } from './level-meter.ts';
import { isSilent } from './level-meter.ts';
import type { CoursesHertz, StrumReadings, WorkerReport } from './messages.ts';
import { silentState } from './microphone-state.ts';
import type { Pipe } from './pipe.ts';
import { openPipe } from './pipe.ts';
import type { Unsubscribe } from './signal.ts';
import { createSignal } from './signal.ts';
import type { InputFacts, OpenSound, SoundSource, SoundState, SoundStateKind } from './source.ts';

/** The slow facts of a session; a new object whenever one of them changes, the same one until then. */
export type ListeningSnapshot = {
  readonly state: SoundState;
  /** Null while nothing is open. */
  readonly input: InputFacts | null;
  /** How well the player is heard; null unless the state is `open`. */
  readonly hearing: HearingWord | null;
  /** The channel that is read, from 0. */
  readonly channel: number;
  /** Until when nothing is read because our own sound plays, on the clock of `nowSeconds`; 0 if there was no gate yet. */
  readonly mutedUntilSeconds: number;
};

/** One session of listening. All times are seconds on its own clock, which starts near 0, never runs backwards and goes on while a device is lost. */
export type Listening = {
  readonly snapshot: () => ListeningSnapshot;
  readonly onSnapshot: (listener: (snapshot: ListeningSnapshot) => void) => Unsubscribe;
  readonly onPitch: (listener: (event: PitchEvent) => void) => Unsubscribe;
  readonly onLevel: (listener: (level: Level) => void) => Unsubscribe;
  readonly nowSeconds: () => number;
  /** Which strings may sound; a hint, kept when the source opens again. */
  readonly expect: (hint: Hint | null) => void;
  /** Forgets the sound so far. */
  readonly reset: () => void;
  /** Reads nothing for so long, from now on: call it with what `speaker.play` returns. */
  readonly gate: (seconds: number) => void;
  /**
   * Every string from the last seconds of sound, at most 4; call it when a strum has rung for that long. Null where nothing is open, or where there is
   * less than a quarter of a second since opening, a reset or a gate.
   */
  readonly readStrum: (coursesHertz: CoursesHertz, lastSeconds: number) => Promise<StrumReadings>;
  readonly chooseChannel: (channel: number) => void;
  /** The one button of a state whose remedy is `retry`; from a key or a click. */
  readonly retry: () => Promise<void>;
  readonly stop: () => void;
};

/** Added to a gate: the way through air and input, and the room's answer (common practice: a small room has faded enough by then). */
const gateTailSeconds = 0.15;
const statesOfAnOpenDevice: ReadonlySet<SoundStateKind> = new Set(['open', 'asleep', 'muted']);

/**
 * Starts to listen to a source. Returns at once, in state `asking`; everything further comes through the subscriptions, whose unsubscribers they return.
 * `connect` is for tests. `const listening = startListening(createMicrophone(), { hint }); const off = listening.onPitch((event) => …)`.
 */
export const startListening = (
  source: SoundSource,
  options: { channel?: number; hint?: Hint | null } = {},
  connect: typeof openPipe = openPipe,
): Listening => {
  const snapshots = createSignal<ListeningSnapshot>();
  const pitches = createSignal<PitchEvent>();
  const levels = createSignal<Level>();
  const originMilliseconds = performance.now();
  let snapshot: ListeningSnapshot = {
    state: { kind: 'asking', sentence: 'Opening the input.', remedy: null },
    input: null,
    hearing: null,
    channel: options.channel ?? 0,
    mutedUntilSeconds: 0,
  };
  let hint = options.hint ?? null;
  let wantedChannel = options.channel ?? 0;
  let broken = false;
  let open: { readonly context: AudioContext; startsAtSeconds: number; pipe: Pipe | null } | null = null;
  let latestSeconds = 0;
  let heard = nothingHeard;
  let asked = 0;
  const questions = new Map<number, (readings: StrumReadings) => void>();

  const change = (changes: Partial<ListeningSnapshot>) => {
    const next = { ...snapshot, ...changes };
    snapshot = next.state.kind === 'open' ? next : { ...next, hearing: null };
    snapshots.emit(snapshot);
  };

  /** The audio clock where it runs, so that "now" and the events agree; the page's clock where it doesn't. */
  const nowSeconds = () => {
    const runs = open?.context.state === 'running' ? open : null;
    const seconds = runs ? runs.startsAtSeconds + runs.context.currentTime : (performance.now() - originMilliseconds) / 1000;
    latestSeconds = Math.max(latestSeconds, seconds);
    return latestSeconds;
  };
  /** Where 0 of an audio clock lies, so that it goes on from the page's clock and never before what has been told. */
  const startOf = (context: AudioContext) => Math.max(latestSeconds, (performance.now() - originMilliseconds) / 1000) - context.currentTime;

  const fail = (sentence: string) => {
    broken = true;
    change({ state: { kind: 'failed', sentence, remedy: 'retry' } });
  };

  const report = (message: WorkerReport) => {
    if (message.kind === 'pitch') {
      for (const event of message.events) {
        heard = hearPitch(heard, event);
        pitches.emit(event);
      }
    } else if (message.kind === 'level') takeLevel(message.level);
    else answer(message.id, message.readings);
  };

  const answer = (id: number, readings: StrumReadings) => {
    questions.get(id)?.(readings);
    questions.delete(id);
  };

  const takeLevel = (level: Level) => {
    const { state, input, channel } = snapshot;
    const silent = source.kind === 'microphone' && isSilent(level, channel);
    if (input && silent && state.kind === 'open') change({ state: silentState(input.label) });
    if (input && !silent && state.kind === 'silent')
      change({ state: { kind: 'open', sentence: `Listening to ${input.label}.`, remedy: null } });
    heard = hearLevel(heard, level, channel);
    const hearing = hearingWord(heard, level.atSeconds);
    if (snapshot.state.kind === 'open' && hearing !== snapshot.hearing) change({ hearing });
    levels.emit(level);
  };

  const opened = async (sound: OpenSound) => {
    const mine = { context: sound.context, startsAtSeconds: startOf(sound.context), pipe: null as Pipe | null };
    open = mine;
    broken = false;
    const channel = Math.min(wantedChannel, sound.input.channelCount - 1);
    // Told together with the state that follows.
    snapshot = { ...snapshot, input: sound.input, channel };
    try {
      const failed = (message: string) => fail(`The part that reads the pitch has stopped (${message}). Try again.`);
      const pipe = await connect(sound, { channel, hint, startsAtSeconds: mine.startsAtSeconds, report, failed });
      if (open === mine) mine.pipe = pipe;
      else pipe.close();
    } catch {
      if (open === mine)
        fail('The part that reads the sound could not be loaded. Try again; if that does not help, start the program anew.');
    }
  };

  const closed = () => {
    open?.pipe?.close();
    open = null;
    for (const id of questions.keys()) answer(id, null);
    snapshot = { ...snapshot, input: null };
  };

  const changed = (state: SoundState) => {
    // A session whose reading has failed stays failed until the source opens anew, however well the device does.
    if (broken && statesOfAnOpenDevice.has(state.kind)) return;
    if (state.kind === 'open' && open) {
      open.startsAtSeconds = startOf(open.context);
      open.pipe?.tell({ kind: 'clock', startsAtSeconds: open.startsAtSeconds });
    }
    change({ state });
  };

  // Its outcome, good or bad, comes as a state.
  void source.start({ opened, closed, changed });

  return {
    snapshot: () => snapshot,
    onSnapshot: snapshots.subscribe,
    onPitch: pitches.subscribe,
    onLevel: levels.subscribe,
    nowSeconds,
    expect: (newHint) => {
      hint = newHint;
      open?.pipe?.tell({ kind: 'expect', hint });
    },
    reset: () => open?.pipe?.tell({ kind: 'reset' }),
    gate: (seconds) => {
      if (!open || !(seconds > 0)) return;
      const untilSeconds = open.context.currentTime + seconds + gateTailSeconds;
      open.pipe?.tell({ kind: 'gate', untilSample: Math.ceil(untilSeconds * open.context.sampleRate) });
      change({ mutedUntilSeconds: Math.max(snapshot.mutedUntilSeconds, open.startsAtSeconds + untilSeconds) });
    },
    readStrum: (coursesHertz, lastSeconds) => {
      const pipe = open?.pipe;
      if (!pipe) return Promise.resolve(null);
      const { promise, resolve } = Promise.withResolvers<StrumReadings>();
      asked += 1;
      questions.set(asked, resolve);
      pipe.tell({ kind: 'strum', id: asked, coursesHertz, lastSeconds });
      return promise;
    },
    chooseChannel: (channel) => {
      wantedChannel = channel;
      open?.pipe?.choose(channel);
      open?.pipe?.tell({ kind: 'reset' });
      change({ channel });
    },
    retry: source.retry,
    stop: source.stop,
  };
};
