import { z } from 'zod';
import {
  changeCorrectionSchema,
  correctionSchema,
  noteSchema,
  readingSchema,
  snoozeSchema,
  stringChangeSchema,
  turnSchema,
  warningKinds,
  warningSeenSchema,
} from '#shared/log/index.ts';

const id = z.string().min(1).max(64);
const moment = z.number().int().nonnegative().max(253_402_300_799_999);
const rowsAtOnce = 1000;

/** Rows for the log, of any kind. Strings that were changed have a request of their own, since the string set changes with them. */
export const appendSchema = z.strictObject({
  turns: z.array(turnSchema).max(rowsAtOnce).default([]),
  readings: z.array(readingSchema).max(rowsAtOnce).default([]),
  notes: z.array(noteSchema).max(rowsAtOnce).default([]),
  warningsSeen: z.array(warningSeenSchema).max(rowsAtOnce).default([]),
  snoozes: z.array(snoozeSchema).max(rowsAtOnce).default([]),
  corrections: z.array(correctionSchema).max(rowsAtOnce).default([]),
  changeCorrections: z.array(changeCorrectionSchema).max(rowsAtOnce).default([]),
});

/** What is said of an instrument: its notes, the strings changed by themselves on any of its sets, and of the set on it what was seen and put off. */
export const remarksSchema = z.strictObject({
  notes: z.array(noteSchema),
  changes: z.array(stringChangeSchema),
  warningsSeen: z.array(warningSeenSchema),
  snoozedUntil: moment.nullable(),
});

const mostBuckets = 1000;

/** A part of a string set's log in stretches of equal length, like the days of a year. */
export const stretchesSchema = z
  .strictObject({ stringSetId: id, from: moment, until: moment, bucketMilliseconds: z.number().int().min(60_000) })
  .refine(({ from, until, bucketMilliseconds }) => until > from && (until - from) / bucketMilliseconds <= mostBuckets, {
    message: `From a moment to a later one, in at most ${mostBuckets} stretches.`,
    path: ['until'],
  });

const place = { course: z.number().int(), string: z.number().int() };

/** What was heard of each string in each stretch (`bucket`, from 0) that has readings. Cents are from what was wanted then, positive = sharp. */
export const summarySchema = z.array(
  z.strictObject({
    ...place,
    bucket: z.number().int().nonnegative(),
    count: z.number().int().positive(),
    meanCents: z.number(),
    lowestCents: z.number(),
    highestCents: z.number(),
    lastAt: moment,
    lastCents: z.number(),
    lastSigmaCents: z.number(),
  }),
);

/** A string as it was judged, without its forecast: for lists and reminders. Seconds are of the epoch; cents from wanted tonight, positive = sharp. */
const stringStateSchema = z.strictObject({
  ...place,
  verdict: z.enum(['settling', 'holding', 'slipping', 'unheard']),
  holdsFromSeconds: z.number().nullable(),
  nextCheckSeconds: z.number().nullable(),
  driftCents: z.number(),
  insideTolerance: z.boolean().nullable(),
  why: z.string(),
  /** What there is to warn of, since when (epoch milliseconds), and whether the player has seen that. */
  warning: z.strictObject({ kind: z.enum(warningKinds), since: z.number(), isSeen: z.boolean() }).nullable(),
});

/** String sets as they stand: each string from the player's eye down, and until when its reminder is put off. */
export const verdictsSchema = z.array(
  z.strictObject({ stringSetId: id, judgedAt: moment, snoozedUntil: moment.nullable(), strings: z.array(stringStateSchema) }),
);

export type LogAddition = z.output<typeof appendSchema>;
export type StringState = z.infer<typeof stringStateSchema>;
export type SetVerdicts = z.infer<typeof verdictsSchema>[number];
