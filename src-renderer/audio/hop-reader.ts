import type { Hint, PitchEvent } from '#shared/pitch/index.ts';
import { createPitchTracker, readStrum } from '#shared/pitch/index.ts';
import type { Level } from './level-meter.ts';
import { createLevelMeter } from './level-meter.ts';
import type { CoursesHertz, Hop, StrumReadings } from './messages.ts';
import { createRecentSound } from './recent-sound.ts';

type Tracker = ReturnType<typeof createPitchTracker>;
type HopReaderOptions = {
  readonly sampleRateHertz: number;
  /** When the clock of the audio context stood at 0, on the clock of the listening session. */
  readonly startsAtSeconds: number;
  readonly hint: Hint | null;
  readonly createTracker?: (options: { sampleRateHertz: number; hint: Hint | null }) => Tracker;
};

/** Sound kept for a strum check, and the least that makes one. */
const recentSeconds = 4;
const strumSecondsAtLeast = 0.25;

/**
 * Turns hops into pitch events and levels, with times on the clock of the listening session. Sound up to a gate's end is not read at all. After a gate, a
 * gap (hops that got lost are counted) or a stopped clock, reading starts afresh, so that no event spans what was not heard.
 */
export const createHopReader = ({ sampleRateHertz, startsAtSeconds, hint, createTracker = createPitchTracker }: HopReaderOptions) => {
  const meter = createLevelMeter();
  const recent = createRecentSound(Math.round(recentSeconds * sampleRateHertz));
  let expected = hint;
  let clockStart = startsAtSeconds;
  let tracker: Tracker | null = null;
  let trackerStart = 0;
  let nextSample: number | null = null;
  let gateUntilSample = 0;
  let droppedHops = 0;

  const startAfresh = () => {
    tracker = null;
    recent.clear();
  };

  const read = ({ firstSample, samples }: Hop): PitchEvent[] => {
    if (firstSample < gateUntilSample) {
      startAfresh();
      return [];
    }
    recent.push(samples);
    if (!tracker) {
      tracker = createTracker({ sampleRateHertz, hint: expected });
      trackerStart = firstSample;
    }
    const offset = clockStart + trackerStart / sampleRateHertz;
    return tracker.push(samples).map((event) => ({ ...event, atSeconds: event.atSeconds + offset }));
  };

  return {
    push: (hop: Hop): { events: PitchEvent[]; level: Level | null } => {
      const { firstSample, samples, peaks } = hop;
      if (nextSample !== null && firstSample !== nextSample) {
        droppedHops += Math.round((firstSample - nextSample) / samples.length);
        startAfresh();
      }
      nextSample = firstSample + samples.length;
      const atSeconds = clockStart + nextSample / sampleRateHertz;
      return { events: read(hop), level: meter.push(peaks, samples.length / sampleRateHertz, atSeconds, droppedHops) };
    },
    expect: (newHint: Hint | null): void => {
      expected = newHint;
      tracker?.expect(newHint);
    },
    reset: startAfresh,
    /** Reads every string from the last seconds, at most four; null with less than a quarter of a second since the last fresh start. */
    readStrum: (coursesHertz: CoursesHertz, lastSeconds: number): StrumReadings => {
      const samples = recent.last(Math.round(lastSeconds * sampleRateHertz));
      return samples.length < strumSecondsAtLeast * sampleRateHertz ? null : readStrum(samples, { sampleRateHertz, courses: coursesHertz });
    },
    /** Leaves out all sound before a sample on the clock of the audio context; never shortens a gate that is in force. */
    gate: (untilSample: number): void => {
      gateUntilSample = Math.max(gateUntilSample, untilSample);
    },
    /** The audio clock had stopped (a sleeping context): where its 0 lies now. */
    setClock: (newStartSeconds: number): void => {
      if (newStartSeconds === clockStart) return;
      clockStart = newStartSeconds;
      startAfresh();
    },
  };
};
export type HopReader = ReturnType<typeof createHopReader>;
