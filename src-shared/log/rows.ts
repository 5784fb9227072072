import { z } from 'zod';

export const id = z.string().min(1).max(64);
/** Epoch milliseconds, up to the end of the year 9999. */
export const at = z.number().int().nonnegative().max(253_402_300_799_999);
/** Which string: its course from the player's eye and its place in the course, from 0. */
export const place = { course: z.number().int().min(0).max(11), string: z.number().int().min(0).max(2) };
const frequency = z.number().min(10).max(6000);

/** The event of taking an instrument from one tuning to another. Frequencies per course and string, from the player's eye down. */
export const retuneSchema = z.strictObject({
  id,
  instrumentId: id,
  stringSetId: id,
  fromTuningId: id.nullable(),
  toTuningId: id.nullable(),
  startedAt: at,
  finishedAt: at.nullable(),
  wantedHertz: z.array(z.array(frequency).min(1).max(3)).min(1).max(12),
});

/** One turn of a peg: how far the string was moved by it, positive = tightened. */
export const turnSchema = z.strictObject({ id, retuneId: id, at, ...place, cents: z.number().min(-2600).max(2600) });

/** Where a reading comes from. */
export const readingSources = ['pluck', 'strum', 'recording'] as const;

/** One trusted measurement of one string. `deviationCents` is heard − wanted at that time, positive = sharp. */
export const readingSchema = z.strictObject({
  id,
  stringSetId: id,
  retuneId: id.nullable(),
  at,
  ...place,
  hertz: frequency,
  wantedHertz: frequency,
  deviationCents: z.number().min(-4800).max(4800),
  sigmaCents: z.number().min(0).max(1200),
  source: z.enum(readingSources),
});

export type Retune = z.infer<typeof retuneSchema>;
export type Turn = z.infer<typeof turnSchema>;
export type ReadingSource = (typeof readingSources)[number];
export type Reading = z.infer<typeof readingSchema>;

/** The log of one string set, each kind of row oldest first. */
export type LogRows = { readonly retunes: readonly Retune[]; readonly turns: readonly Turn[]; readonly readings: readonly Reading[] };
