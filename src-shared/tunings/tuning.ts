import { z } from 'zod';
import { pitchSchema } from '#shared/instruments/index.ts';

/** One course of a tuning: a spelled pitch for each string, and how far the course is wanted from it in cents. */
export const tuningCourseSchema = z.strictObject({
  pitches: z.array(pitchSchema).min(1).max(3),
  offsetCents: z.number().min(-50).max(50),
});

/** A tuning as the library keeps it: targets from the player's eye down, and the home tuning it was written for. */
export const tuningSchema = z
  .strictObject({
    id: z.string().min(1).max(64),
    name: z.string().trim().min(1, 'Give the tuning a name.').max(80),
    courses: z.array(tuningCourseSchema).min(1).max(12),
    home: z.array(z.array(pitchSchema).min(1).max(3)).min(1).max(12),
    favourite: z.boolean(),
    tags: z.array(z.string().trim().min(1).max(40)).max(20),
    notes: z.string().max(2000),
  })
  .refine(
    ({ courses, home }) => courses.length === home.length && courses.every(({ pitches }, index) => pitches.length === home[index]?.length),
    'A tuning has as many courses and strings as the home that it was written for.',
  );

export type TuningCourse = z.infer<typeof tuningCourseSchema>;
export type Tuning = z.infer<typeof tuningSchema>;
