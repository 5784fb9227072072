import type { Hint, PitchEvent } from '#shared/pitch/index.ts';
import { createPitchTracker, readStrum } from '#shared/pitch/index.ts';
import type { Level } from './level-meter.ts';
import { createLevelMeter } from './level-meter.ts';
import type { CoursesHertz, Hop, StrumReadings } from './messages.ts';
import { createRecentSound } from './recent-sound.ts';

type Tracker = ReturnType<typeof createPitchTracker>;
/** What depends on the sample rate. */
type Stream = {
  readonly sampleRateHertz: number;
  readonly tracker: Tracker;
  readonly recent: ReturnType<typeof createRecentSound>;
};
type HopReaderOptions = {
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
 * gap (hops that got lost are counted) or a stopped clock, reading starts afresh, so that no event spans what was not heard; what it learnt about
 * the strings stays. At another sample rate it is built anew, and the clock of the session goes on.
 */
export const createHopReader = ({ startsAtSeconds, hint, createTracker = createPitchTracker }: HopReaderOptions) => {
  const meter = createLevelMeter();
  let expected = hint;
  let clockStart = startsAtSeconds;
  /** Null before the first hop. */
  let stream: Stream | null = null;
  /** The sample that the tracker began with; null while it has heard nothing. */
  let trackerStart: number | null = null;
  let nextSample: number | null = null;
  let gateUntilSample = 0;
  let droppedHops = 0;

  const startAfresh = (keepStiffness: boolean) => {
    stream?.tracker.reset({ keepStiffness });
    stream?.recent.clear();
    trackerStart = null;
  };

  /** The stream at a rate. Where that is another than before, samples are counted anew, and clock and gate go on from where they stood. */
  const streamAt = ({ sampleRateHertz, firstSample }: Hop) => {
    if (stream?.sampleRateHertz === sampleRateHertz) return stream;
    if (stream !== null && nextSample !== null) {
      const endSeconds = clockStart + nextSample / stream.sampleRateHertz;
      const gatedSeconds = (gateUntilSample - nextSample) / stream.sampleRateHertz;
      clockStart = endSeconds - firstSample / sampleRateHertz;
      gateUntilSample = firstSample + Math.ceil(gatedSeconds * sampleRateHertz);
      nextSample = null;
    }
    trackerStart = null;
    stream = {
      sampleRateHertz,
      tracker: createTracker({ sampleRateHertz, hint: expected }),
      recent: createRecentSound(Math.round(recentSeconds * sampleRateHertz)),
    };
    return stream;
  };

  const read = ({ firstSample, samples, sampleRateHertz }: Hop, { tracker, recent }: Stream): PitchEvent[] => {
    if (firstSample < gateUntilSample) {
      if (trackerStart !== null) startAfresh(true);
      return [];
    }
    recent.push(samples);
    trackerStart ??= firstSample;
    const offset = clockStart + trackerStart / sampleRateHertz;
    return tracker.push(samples).map((event) => ({ ...event, atSeconds: event.atSeconds + offset }));
  };

  return {
    push: (hop: Hop): { events: PitchEvent[]; level: Level | null } => {
      const { firstSample, samples, peaks, sampleRateHertz } = hop;
      const now = streamAt(hop);
      if (nextSample !== null && firstSample !== nextSample) {
        droppedHops += Math.round((firstSample - nextSample) / samples.length);
        startAfresh(true);
      }
      nextSample = firstSample + samples.length;
      const atSeconds = clockStart + nextSample / sampleRateHertz;
      return { events: read(hop, now), level: meter.push(peaks, samples.length / sampleRateHertz, atSeconds, droppedHops) };
    },
    expect: (newHint: Hint | null): void => {
      expected = newHint;
      stream?.tracker.expect(newHint);
    },
    /** Forgets the sound so far, and what it told about the strings. */
    reset: () => startAfresh(false),
    /** Reads every string from the last seconds, at most four; null with less than a quarter of a second since the last fresh start. */
    readStrum: (coursesHertz: CoursesHertz, lastSeconds: number): StrumReadings => {
      if (stream === null) return null;
      const { sampleRateHertz, recent } = stream;
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
      startAfresh(true);
    },
  };
};
export type HopReader = ReturnType<typeof createHopReader>;
