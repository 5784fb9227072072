// Guides that hear samples: the coach and a plain meter, each behind the tracker.
import { advise, type CoachState, type Effect, hear, listenFor, listenForStrum, start, step, type Setup } from '#shared/guidance/index.ts';
import { createPitchTracker, readStrum } from '#shared/pitch/index.ts';
import type { Asked, Guide } from '#shared/simulation/player/index.ts';
import type { EarGuide } from '#shared/simulation/sounding/index.ts';

const peak = (samples: Float32Array): number => samples.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);

/** A strum begins with a sudden peak above this, and is read after so many seconds. */
const strumLevel = 0.03;
const strumSeconds = 1.25;

/** The whole chain: samples → tracker → matching → coach. */
export function coachByEar(
  setup: Setup,
  sampleRateHertz: number,
): EarGuide & { readonly effects: readonly Effect[]; readonly state: () => CoachState; readonly doubts: () => number } {
  let state = start(setup);
  const tracker = createPitchTracker({ sampleRateHertz, hint: listenFor(state) });
  const effects: Effect[] = [];
  let strum: number[] = [];
  let heardSamples = 0;
  let levelBefore = 1;
  let doubts = 0;

  /** Waits for a strum, lets it ring, and reads it once. */
  const takeStrum = (samples: Float32Array) => {
    const [before, level] = [levelBefore, peak(samples)];
    levelBefore = level;
    if (strum.length === 0 && (level < strumLevel || level < 3 * before)) return;
    strum.push(...samples);
    if (strum.length < strumSeconds * sampleRateHertz) return;
    const courses = readStrum(Float32Array.from(strum), { sampleRateHertz, courses: listenForStrum(state) });
    const next = step(state, { kind: 'strum', atSeconds: setup.atSeconds + heardSamples / sampleRateHertz, courses });
    strum = [];
    state = next.state;
    effects.push(...next.effects);
    tracker.expect(listenFor(state));
  };

  return {
    effects,
    state: () => state,
    doubts: () => doubts,
    listen: (samples) => {
      heardSamples += samples.length;
      if (state.phase === 'strumming') takeStrum(samples);
      for (const event of tracker.push(samples)) {
        if (event.kind === 'refusal') continue;
        const next = hear(state, { ...event, atSeconds: setup.atSeconds + event.atSeconds });
        if (next.state.queue !== state.queue) tracker.expect(listenFor(next.state));
        if (next.state.doubt !== null && state.doubt === null) doubts += 1;
        state = next.state;
        effects.push(...next.effects);
      }
    },
    ask: (): Asked | 'strum' => {
      const { course, action, centsToGo } = advise(state);
      if (action === 'strum') return 'strum';
      if (course === null) return null;
      const isToTurn = action === 'tighten' || action === 'loosen' || (action === 'stop' && (centsToGo ?? 0) < 0);
      return { place: course, turnCents: isToTurn ? centsToGo : null };
    },
  };
}

/** A plain meter behind the tracker: whatever sounds is taken for the string asked for. */
export function meterByEar(guide: Guide, hertz: readonly number[], sampleRateHertz: number): EarGuide {
  const tracker = createPitchTracker({ sampleRateHertz, hint: { hertz, asked: null } });
  let [place, since] = [-1, 0];
  return {
    listen: (samples) => {
      for (const event of tracker.push(samples)) {
        const asked = guide.ask();
        if (asked === null || event.kind === 'refusal') continue;
        // Its player knows that what rings on is the string before.
        if (asked.place !== place) [place, since] = [asked.place, event.atSeconds];
        if (event.atSeconds - (event.sincePluckSeconds ?? 0) >= since) guide.hear({ ...event, place });
      }
    },
    ask: guide.ask,
  };
}
