import { expect, test } from 'vitest';
import type { PitchEvent, RefusalReason } from '#shared/pitch/index.ts';
import { type Refused, refusalWords, refusedAfter } from '../../../../src-renderer/screens/retune/refusal.ts';

const refusal = (atSeconds: number, reason: RefusalReason): PitchEvent => ({ kind: 'refusal', atSeconds, reason });
const note: PitchEvent = {
  kind: 'frame',
  atSeconds: 2,
  hertz: 262,
  sigmaCents: 0.3,
  others: [],
  levelDecibels: -30,
  sincePluckSeconds: 0.3,
  steady: true,
  driftCentsPerSecond: 0,
  inharmonicity: 0,
};
const after = (...events: readonly PitchEvent[]): string | null => refusalWords(events.reduce<Refused>(refusedAfter, null));

test('a hum that goes on is named with where to look', () => {
  expect(after(refusal(0, 'hum'), refusal(1, 'hum'))).toBeNull();
  expect(after(refusal(0, 'hum'), refusal(1, 'hum'), refusal(1.6, 'hum'))).toContain('loose cable');
});

test('a hum stays one where something else in the room hides it for a moment', () => {
  expect(after(refusal(0, 'hum'), refusal(1, 'hum'), refusal(1.1, 'unclear'), refusal(1.2, 'attack'), refusal(1.6, 'hum'))).toContain(
    'hum',
  );
});

test('a string that fades is unclear for a moment, and nothing is said of it', () => {
  expect(
    after(refusal(0, 'attack'), refusal(0.1, 'unclear'), refusal(2, 'unclear'), refusal(2.1, 'silence'), refusal(4, 'unclear')),
  ).toBeNull();
  expect(after(refusal(0, 'attack'), refusal(0.1, 'unclear'), refusal(3.2, 'unclear'))).toContain('pluck one by itself');
});

test('a room that is never still is no news', () => {
  expect(after(refusal(0, 'unclear'), refusal(3.2, 'unclear'))).toBeNull();
  expect(after(refusal(0, 'attack'), refusal(0.1, 'unclear'), refusal(9, 'unclear'))).toBeNull();
});

test('a string that is heard ends what was refused, and so does another reason', () => {
  expect(after(refusal(0, 'hum'), note, refusal(2.5, 'hum'))).toBeNull();
  expect(after(refusal(0, 'hum'), refusal(1, 'unclear'), refusal(2, 'unclear'))).toBeNull();
});
