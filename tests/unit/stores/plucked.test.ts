import { describe, expect, test } from 'vitest';
import type { PitchFrame } from '#shared/pitch/index.ts';
import { hearPlucked, nothingPlucked, type Plucked } from '../../../src-renderer/stores/plucked.ts';

const home = { id: 'home', wanted: [[391.9954], [261.6256], [329.6276], [440]] };
const minor = { id: 'minor', wanted: [[391.9954], [261.6256], [311.127], [440]] };
const candidates = [home, minor];
const present = home.wanted;

/** Pitches that were plucked one after the other, each for 0.8 seconds. */
function play(pitches: readonly number[], among = candidates, from: Plucked = nothingPlucked, fromSeconds = 0): Plucked {
  return pitches.reduce((plucked, hertz, index) => {
    let next = plucked;
    for (let since = 0.1; since < 0.8; since += 0.05) {
      const atSeconds = fromSeconds + index + since;
      const frame = { kind: 'frame', atSeconds, hertz, sigmaCents: 0.3, steady: true, sincePluckSeconds: since } as const;
      next = hearPlucked(
        next,
        { ...frame, others: [], levelDecibels: -20, driftCentsPerSecond: 0, inharmonicity: 0 } satisfies PitchFrame,
        among,
        present,
      );
    }
    return next;
  }, from);
}

describe('what an instrument is in', () => {
  test('stays open until every course was plucked, in any order', () => {
    expect(play([261.6, 440.2, 311.1]).answer).toEqual({ kind: 'unknown', reason: 'pluck-more' });
    const { answer } = play([440.2, 311.1, 261.6, 392.1]);
    expect(answer.kind === 'ranked' ? answer.tunings.map(({ id }) => id) : []).toEqual(['minor', 'home']);
  });

  test('a course played twice counts once', () => {
    expect(play([261.6, 261.7, 440.2, 311.1]).answer).toEqual({ kind: 'unknown', reason: 'pluck-more' });
  });

  test('where two ways to deal the pitches out are as good, one course is asked for by name, and its pluck settles it', () => {
    // The same four pitches, re-entrant and linear: only who sounds the lowest tells them apart.
    const crossed = [
      { id: 'one', wanted: [[311.127], [261.6256], [349.2282], [440]] },
      { id: 'other', wanted: [[261.6256], [311.127], [349.2282], [440]] },
    ];
    const pitches = [311.127, 261.6256, 349.2282, 440].map((hertz) => hertz * 2 ** (-150 / 1200));
    const unsure = play(pitches, crossed);
    expect(unsure.answer.kind).toBe('could-be-several');
    const asked = unsure.answer.kind === 'could-be-several' ? unsure.answer.ask : null;
    expect(asked).toBe(0);
    const { answer } = play([pitches[1] ?? 0], crossed, unsure, 10);
    expect(answer.kind === 'ranked' ? answer.tunings[0]?.id : answer.kind).toBe('other');
  });
});
