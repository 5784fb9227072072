import { createStore } from 'zustand/vanilla';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { type Gathering, gatherPluck, nothingGathered } from '#shared/hearing/index.ts';
import type { FretPair } from '#shared/hearing/index.ts';
import type { PitchEvent } from '#shared/pitch/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { cueLanded, listen, onPitch, type SoundChoice, stopListening } from './session.ts';

type HeardPitch = FretPair['open'];

/** The 12th fret against the open string, course by course in the player's order. */
export type Fretting = {
  readonly overview: Overview;
  /** Where each course stands open, in hertz: its lowest string where it has several. */
  readonly expected: readonly number[];
  /** The course that is asked for, from the player's eye; null when all are through. */
  readonly course: number | null;
  /** Its open string, once it was heard. */
  readonly open: HeardPitch | null;
  readonly pairs: readonly FretPair[];
  readonly gathering: Gathering;
};

/** The fret check under way, or null. */
export const fretting = createStore<{ readonly now: Fretting | null }>(() => ({ now: null }));

let leave: (() => void) | null = null;

type Begin = {
  readonly overview: Overview;
  /** Where the strings are, per course and string, in hertz. */
  readonly present: readonly (readonly number[])[];
  readonly settings: Settings;
  readonly sound: SoundChoice;
};

/** Begins with the course nearest the player's eye. Rejects where nothing can be heard. */
export async function beginFretting({ overview, present, settings, sound }: Begin): Promise<void> {
  endFretting();
  const expected = present.map((strings) => Math.min(...strings));
  fretting.setState({ now: startFretting(overview, expected) });
  leave = onPitch((event) => {
    const { now } = fretting.getState();
    if (now === null) return;
    const next = hearFretted(now, event);
    fretting.setState({ now: next });
    if (settings.soundCues && (next.pairs !== now.pairs || next.open !== now.open)) cueLanded();
  });
  await listen(sound, { hertz: expected.flatMap((open) => [hertz(open), hertz(2 * open)]), asked: null });
}

/** A fret check before anything was heard. */
export const startFretting = (overview: Overview, expected: readonly number[]): Fretting => ({
  overview,
  expected,
  course: expected.length > 0 ? 0 : null,
  open: null,
  pairs: [],
  gathering: nothingGathered,
});

/** Stops listening; what was read is forgotten. */
export function endFretting(): void {
  if (fretting.getState().now === null) return;
  leave?.();
  leave = null;
  stopListening();
  fretting.setState({ now: null });
}

/** Goes on to the next course without this one, or back to the one before to hear it again. */
export function stepFretting(by: 1 | -1): void {
  const { now } = fretting.getState();
  if (now === null) return;
  const course = Math.max(0, (now.course ?? now.expected.length) + by);
  const isOver = course >= now.expected.length;
  fretting.setState({
    now: { ...now, course: isOver ? null : course, open: null, pairs: now.pairs.filter((pair) => by > 0 || pair.course !== course) },
  });
}

/** The open string is within this of where it was left, in cents; what lies further above it is taken for the fretted note. */
const openCents = 90;
const frettedAboveCents = 300;

/** Takes one event: a course is heard open, then stopped. Other sounds are passed over. */
export function hearFretted(now: Fretting, event: PitchEvent): Fretting {
  const { course, open, expected, pairs } = now;
  if (event.kind === 'refusal' || course === null) return now;
  const { gathering, added } = gatherPluck(now.gathering, event);
  const at = expected[course];
  if (added === null || at === undefined) return { ...now, gathering };
  const above = centsBetween(hertz(added.hertz), hertz(open?.hertz ?? at));
  if (Math.abs(above) < openCents) return { ...now, gathering, open: added };
  if (open === null || above < frettedAboveCents) return { ...now, gathering };
  const next = course + 1 < expected.length ? course + 1 : null;
  return {
    ...now,
    gathering,
    open: null,
    course: next,
    pairs: [...pairs.filter((pair) => pair.course !== course), { course, open, fretted: added }],
  };
}
