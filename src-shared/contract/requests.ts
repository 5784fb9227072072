import { z } from 'zod';
import { songSchema } from '#shared/sets/index.ts';
import { instrumentSchema, stringSetSchema } from '#shared/instruments/index.ts';
import { readingSchema, retuneSchema, stringChangeSchema, turnSchema } from '#shared/log/index.ts';
import { noteLanguages } from '#shared/music/index.ts';
import { tuningSchema } from '#shared/tunings/index.ts';
import { importDecisionsSchema, importPreviewSchema, importReceiptSchema, libraryTextSchema } from './exchange.ts';
import { appendSchema, remarksSchema, stretchesSchema, summarySchema, verdictsSchema } from './log.ts';
import type { PushName, RequestName } from './names.ts';

const nothing = z.strictObject({});
const id = z.string().min(1).max(64);
const byId = z.strictObject({ id });

/** What the player has set for the whole app. */
export const settingsSchema = z.strictObject({
  referenceHertz: z
    .number()
    .min(400, 'The reference pitch is between 400 and 480 Hz.')
    .max(480, 'The reference pitch is between 400 and 480 Hz.'),
  toleranceCents: z.number().min(0.5, 'The tolerance is between 0.5 and 10 cents.').max(10, 'The tolerance is between 0.5 and 10 cents.'),
  theme: z.enum(['system', 'dark', 'light']),
  soundCues: z.boolean(),
  microphoneLabel: z.string().max(200).nullable(),
  /** How notes are named wherever one is shown, typed or printed. */
  noteLanguage: z.enum(noteLanguages),
  /** Whether the next step of a retune is spoken. */
  speaks: z.boolean(),
});

/** One instrument at a glance: what is fitted, the retune that it is in, the last reading of each string, and which were turned since. */
const overviewSchema = z.strictObject({
  instrument: instrumentSchema,
  stringSet: stringSetSchema,
  lastRetune: retuneSchema.nullable(),
  lastReadings: z.array(readingSchema),
  turnedSinceHeard: z.array(
    z.strictObject({ course: z.number().int(), string: z.number().int(), cents: z.number(), at: z.number().int() }),
  ),
});

/** A string set that is or was fitted to an instrument, and when it was last heard; null for one that never was. */
const fittedSetSchema = z.strictObject({ stringSet: stringSetSchema, lastHeardAt: z.number().int().nonnegative().nullable() });

/** Every request: what goes in, what comes out. */
export const requests = {
  'library.status': {
    input: nothing,
    output: z.strictObject({
      host: z.enum(['electron', 'desk']),
      version: z.string(),
      dataFolder: z.string(),
      backups: z.number().int(),
      demo: z.boolean(),
      demoMicrophone: z.string().nullable(),
      notice: z.strictObject({ code: z.string(), sentence: z.string() }).nullable(),
    }),
  },
  'library.restoreBackup': { input: nothing, output: nothing },
  'library.export': { input: z.strictObject({ log: z.boolean() }), output: z.strictObject({ text: z.string() }) },
  'library.previewImport': { input: z.strictObject({ text: libraryTextSchema }), output: importPreviewSchema },
  'library.import': {
    input: z.strictObject({ text: libraryTextSchema, decisions: importDecisionsSchema }),
    output: importReceiptSchema,
  },
  'library.undoImport': { input: importReceiptSchema, output: nothing },
  'overview.read': { input: nothing, output: z.array(overviewSchema) },
  'instruments.save': { input: z.strictObject({ instrument: instrumentSchema, stringSet: stringSetSchema }), output: instrumentSchema },
  'instruments.remove': { input: byId, output: nothing },
  'instruments.restore': { input: byId, output: nothing },
  'instruments.stringSets': { input: byId, output: z.array(fittedSetSchema) },
  'tunings.list': { input: nothing, output: z.array(tuningSchema) },
  'tunings.save': { input: tuningSchema, output: tuningSchema },
  'tunings.remove': { input: byId, output: nothing },
  'tunings.restore': { input: byId, output: nothing },
  'songs.list': { input: nothing, output: z.array(songSchema) },
  'log.read': {
    input: z.strictObject({ stringSetId: id, retunes: z.number().int().min(1).max(200) }),
    output: z.strictObject({
      retunes: z.array(retuneSchema),
      turns: z.array(turnSchema),
      readings: z.array(readingSchema),
      wrong: z.array(readingSchema),
      changes: z.array(stringChangeSchema),
    }),
  },
  'log.beginRetune': { input: retuneSchema, output: nothing },
  'log.finishRetune': { input: z.strictObject({ id, finishedAt: z.number().int().nonnegative() }), output: nothing },
  'log.append': { input: appendSchema, output: nothing },
  'log.changeString': { input: stringChangeSchema, output: nothing },
  'log.remarks': { input: byId, output: remarksSchema },
  'log.summary': { input: stretchesSchema, output: summarySchema },
  'log.csv': {
    input: z.strictObject({ instrumentId: id, after: z.number().int().nonnegative() }),
    output: z.strictObject({ text: z.string(), next: z.number().int().nonnegative().nullable() }),
  },
  'verdicts.read': { input: z.strictObject({ stringSetIds: z.array(id).max(24) }), output: verdictsSchema },
  'settings.read': { input: nothing, output: settingsSchema },
  'settings.save': { input: settingsSchema, output: settingsSchema },
  'demo.load': { input: nothing, output: nothing },
  'demo.remove': { input: nothing, output: nothing },
  'window.raise': { input: nothing, output: nothing },
} as const satisfies Record<RequestName, { input: z.ZodType; output: z.ZodType }>;

/** The parts of the library that a change can be in. */
export const libraryParts = ['instruments', 'tunings', 'songs', 'log', 'settings', 'library'] as const;

/** Every push: which part of the library changed. It carries no rows; the listener asks again. */
export const pushes = {
  changed: z.strictObject({ parts: z.array(z.enum(libraryParts)) }),
} as const satisfies Record<PushName, z.ZodType>;

export type Settings = z.infer<typeof settingsSchema>;
export type Overview = z.infer<typeof overviewSchema>;
export type FittedSet = z.infer<typeof fittedSetSchema>;
export type Input<Name extends RequestName> = z.input<(typeof requests)[Name]['input']>;
export type Output<Name extends RequestName> = z.output<(typeof requests)[Name]['output']>;
export type Push<Name extends PushName> = z.output<(typeof pushes)[Name]>;
