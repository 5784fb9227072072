import { describe, expect, test } from 'vitest';
import { createPitchTracker, type PitchFrame } from '#shared/pitch/index.ts';
import { hertz } from '#shared/units/index.ts';
import { forgetLast, hearPlayed, type Played, playedPitches, startPlayed, takeRepeated } from '../../../src-renderer/stores/played.ts';
import { demoRecording, lastSteady, truthOf } from '../../support/demo.ts';

/** Frames of a pluck of a second that stands still. */
const pluck = (pitch: number, fromSeconds: number): readonly PitchFrame[] =>
  Array.from({ length: 25 }, (_, index) => ({
    kind: 'frame' as const,
    atSeconds: fromSeconds + index * 0.04,
    hertz: pitch,
    sigmaCents: 0.2,
    others: [],
    levelDecibels: -20,
    sincePluckSeconds: 0.1 + index * 0.04,
    steady: true,
    driftCentsPerSecond: 0,
    inharmonicity: 0,
  }));
const play = (played: Played, ...pitches: readonly number[]): Played =>
  pitches.flatMap((pitch, index) => pluck(pitch, index * 2)).reduce(hearPlayed, played);

describe('a tuning that is played in', () => {
  test('each course counts once, in the order in which they are plucked', () => {
    const { heard } = play(startPlayed(4), 392, 247, 311.1, 466.2);
    expect(heard.map((course) => Math.round(course.hertz))).toEqual([392, 247, 311, 466]);
    expect(playedPitches(heard, hertz(440)).pitches).toEqual(['G4', 'B3', 'Eb4', 'Bb4']);
  });

  test('a course that is plucked again is not taken for the next one, unless the player says so', () => {
    const twice = play(startPlayed(3), 392, 391.8);
    expect(twice.heard).toHaveLength(1);
    expect(twice.repeated).not.toBeNull();
    expect(takeRepeated(twice).heard).toHaveLength(2);
    expect(play(twice, 247).heard).toHaveLength(2);
  });

  test('the last course can be played once more; nothing is heard after all of them', () => {
    const all = play(startPlayed(2), 392, 247, 311);
    expect(all.heard).toHaveLength(2);
    expect(play(forgetLast(all), 262).heard.map((course) => Math.round(course.hertz))).toEqual([392, 262]);
  });

  test('how far each course lies from its note is told in cents, at tonight’s reference', () => {
    const { heard } = play(startPlayed(2), 440 * 2 ** (12 / 1200), 220 * 2 ** (-8 / 1200));
    expect(playedPitches(heard, hertz(440)).offsetCents).toEqual([12, -8]);
    expect(playedPitches(heard, hertz(442)).offsetCents).toEqual([4.1, -15.9]);
  });

  test('from sound: the demo’s tenor in Lantern E♭, within half a cent of the truth', () => {
    const { sampleRateHertz, channels } = demoRecording('wren-after.wav');
    const tracker = createPitchTracker({ sampleRateHertz, hint: null });
    const [samples = new Float32Array()] = channels;
    const frames: PitchFrame[] = [];
    for (let at = 0; at < samples.length; at += 1024)
      frames.push(...tracker.push(samples.slice(at, at + 1024)).filter((event) => event.kind === 'frame'));
    const { heard } = frames.reduce(hearPlayed, startPlayed(4));
    expect(playedPitches(heard, hertz(440)).pitches).toEqual(['G4', 'Bb3', 'Eb4', 'Bb4']);
    const wanted = lastSteady(truthOf('wren-after.wav').plucks);
    for (const [course, { hertz: true_ }] of wanted)
      expect(Math.abs(1200 * Math.log2((heard[course]?.hertz ?? Number.NaN) / true_)), `course ${course}`).toBeLessThan(0.5);
  });
});
