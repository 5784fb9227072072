import { afterEach, expect, test, vi } from 'vitest';
import type { Host, Overview } from '#shared/contract/index.ts';
import { endRetune, retuning } from '../../../src-renderer/stores/retuning.ts';
import { beginTouchUp } from '../../../src-renderer/stores/touch-up.ts';
import { instrumentOf, readingOf, settings, tuningOf } from '../screens/wren.ts';

vi.mock('../../../src-renderer/stores/session.ts', () => ({
  listen: () => Promise.resolve(),
  onPitch: () => () => undefined,
  stopListening: () => undefined,
  session: { getState: () => ({ listening: null }) },
}));

const lantern = tuningOf('Lantern', 'G4 Bb3 Eb4 Bb4', 'G4 C4 E4 A4');
const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
const row = { id: 'one', instrumentId: 'wren', stringSetId: 'wren-set', startedAt: 1, finishedAt: 2, wantedHertz: [[1]] };
const log = { retunes: [], turns: [], readings: [], changes: [], wrong: [] };

/** Course 1 was heard at A4, not at the B♭4 of the tuning. */
async function wantedOfCourse1(change: Partial<Overview>): Promise<number | undefined> {
  const overview = {
    ...wren,
    instrument: { ...wren.instrument, tuningId: lantern.id },
    lastReadings: [readingOf(3, 440, 466.2, 2)],
    ...change,
  };
  const answers: Readonly<Record<string, unknown>> = { 'overview.read': [overview], 'log.read': log };
  const host = { ask: (name: string) => Promise.resolve(answers[name]), on: () => () => undefined } as unknown as Host;
  await beginTouchUp({ host, overview, tunings: [lantern], settings, sound: { inputLabel: null, channel: 0 } });
  return retuning.getState().now?.coach.setup.wanted[3]?.[0];
}

afterEach(endRetune);

test('a touch-up leaves a course where its last retune left it: nobody confirmed what the rest of the way would do to its string', async () => {
  expect(await wantedOfCourse1({ lastRetune: { ...row, fromTuningId: null, toTuningId: lantern.id } })).toBeCloseTo(440, 6);
});

test('where the player has said since what it is in, every course is brought there', async () => {
  expect(await wantedOfCourse1({ lastRetune: { ...row, fromTuningId: null, toTuningId: null } })).toBeCloseTo(466.16, 1);
});

test('at another reference pitch every course is brought to it', async () => {
  const heard = [391.995, 233.082, 311.127, 466.164].map((hertz, course) => readingOf(course, hertz / 2 ** (1 / 12), hertz, 2));
  expect(await wantedOfCourse1({ lastRetune: { ...row, fromTuningId: null, toTuningId: lantern.id }, lastReadings: heard })).toBeCloseTo(
    466.16,
    1,
  );
});
