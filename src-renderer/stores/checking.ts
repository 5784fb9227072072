import { createStore } from 'zustand/vanilla';
import type { Host, Overview, Settings } from '#shared/contract/index.ts';
import { type Check, hearPluck, startCheck } from '#shared/hearing/index.ts';
import { type Reading, readingRow, type ReadingSource } from '#shared/log/index.ts';
import type { PitchEvent } from '#shared/pitch/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { hearLeft } from './after-strum.ts';
import { freshOverview } from './fresh.ts';
import { append } from './outbox.ts';
import { cueLanded, listen, onPitch, type SoundChoice, session, stopListening } from './session.ts';
import { stateOf, type TuningHere } from './strings.ts';

/** A check under way: the tuning that the instrument is in, and what was read so far. */
export type Checking = {
  readonly overview: Overview;
  readonly tuning: TuningHere;
  readonly check: Check;
  readonly way: 'plucks' | 'strum';
  readonly read: readonly Reading[];
  /** Courses that the last strum did not tell, from the player's eye, from 0: they are plucked by name, the first one first. When it was read, in seconds. */
  readonly unclear: readonly number[];
  readonly strumReadAtSeconds: number;
};

/** The check under way, or null. */
export const checking = createStore<{ readonly now: Checking | null }>(() => ({ now: null }));

type Begin = {
  readonly host: Host;
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly settings: Settings;
  readonly sound: SoundChoice;
};

/** How long a strum rings before it is read, and how much of it is read, in seconds. */
const strumRings = { afterSeconds: 1.2, lastSeconds: 1.3 };
/** A strum's reading counts where it is this sure, in cents. */
const surestStrumCents = 1.5;

let leave: (() => void) | null = null;
/** How often a check was begun or ended. */
let begun = 0;

/** Begins to check an instrument in the tuning that it is in: open strings, in any order. */
export async function beginCheck({ host, overview: shown, tunings, settings, sound }: Begin): Promise<void> {
  const mine = (begun += 1);
  const overview = await freshOverview(host, shown);
  // It was ended, or begun anew, before it was known what the instrument is in.
  if (mine !== begun) return;
  const { tuning, present } = stateOf(overview, tunings, settings);
  const nothing = { read: [], unclear: [], strumReadAtSeconds: 0 };
  checking.setState({ now: { overview, tuning, check: startCheck(present, tuning.hertz), way: 'plucks', ...nothing } });
  leave = onPitch((event) => takePitch(host, settings, event));
  await listen(sound, { hertz: tuning.hertz.flat(), asked: null });
}

/** Ends the check and stops listening. */
export function endCheck(): void {
  begun += 1;
  leave?.();
  leave = null;
  strumAt = null;
  stopListening();
  checking.setState({ now: null });
}

/** Single plucks, or all strings in one strum. */
export function checkBy(way: Checking['way']): void {
  const { now } = checking.getState();
  if (now !== null) checking.setState({ now: { ...now, way, unclear: [] } });
}

function takePitch(host: Host, settings: Settings, event: PitchEvent): void {
  const { now } = checking.getState();
  if (now === null) return;
  heardUntil = event.atSeconds;
  if (event.kind === 'refusal' && event.reason === 'silence') strumAt = null;
  if (now.way === 'strum' && now.unclear.length === 0) return waitForStrum(host, settings, event);
  if (event.kind === 'refusal') return;
  // A course that is plucked by itself is no strum, for as long as it rings.
  if (now.way === 'strum') strumAt = event.atSeconds;
  const { reading, ...heard } = now.way === 'strum' ? hearLeft(now, event) : hearPluck(now.check, event);
  checking.setState({ now: { ...now, ...heard } });
  if (reading !== null) record(host, settings, [{ ...reading, source: 'pluck' }]);
}

/** When the strum that sounds began; null in silence. */
let strumAt: number | null = null;
/** When the latest event was heard. */
let heardUntil = 0;

/** Waits until a strum has rung for long enough, then reads every string from it, once. */
function waitForStrum(host: Host, settings: Settings, event: PitchEvent): void {
  if (strumAt === null && !(event.kind === 'refusal' && event.reason === 'silence')) {
    strumAt = event.atSeconds;
    setTimeout(() => void readStrum(host, settings), strumRings.afterSeconds * 1000);
  }
}

async function readStrum(host: Host, settings: Settings): Promise<void> {
  const { now } = checking.getState();
  const strings = now?.way === 'strum' ? await session.getState().listening?.readStrum(now.tuning.hertz, strumRings.lastSeconds) : null;
  if (strings === null || strings === undefined) return;
  const readings = strings.flatMap((course, index) =>
    course.flatMap((heard, string) =>
      'refusal' in heard || heard.sigmaCents > surestStrumCents ? [] : [{ course: index, string, ...heard, source: 'strum' as const }],
    ),
  );
  record(host, settings, readings);
  const unclear = strings.flatMap((course, index) =>
    course.every((_, string) => readings.some((one) => one.course === index && one.string === string)) ? [] : [index],
  );
  const after = checking.getState().now;
  if (after !== null) checking.setState({ now: { ...after, unclear, strumReadAtSeconds: heardUntil } });
}

type Heard = {
  readonly course: number;
  readonly string: number;
  readonly hertz: number;
  readonly sigmaCents: number;
  readonly source: ReadingSource;
};

function record(host: Host, settings: Settings, heard: readonly Heard[]): void {
  const { now } = checking.getState();
  if (now === null || heard.length === 0) return;
  const readings = heard.flatMap(({ source, ...one }) => {
    const wantedHertz = now.tuning.hertz[one.course]?.[one.string];
    const of = {
      id: crypto.randomUUID(),
      at: Date.now(),
      stringSetId: now.overview.stringSet.id,
      retuneId: now.overview.lastRetune?.id ?? null,
      source,
    };
    return wantedHertz === undefined ? [] : [readingRow(one, { ...of, wantedHertz })];
  });
  checking.setState({ now: { ...now, read: [...now.read, ...readings] } });
  if (settings.soundCues) cueLanded();
  void append(host, { readings, turns: [] });
}
