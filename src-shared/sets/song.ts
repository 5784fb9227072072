import { z } from 'zod';

/** A song of the player's: which tuning it is played in, and on which instrument where that matters. */
export const songSchema = z.strictObject({
  id: z.string().min(1).max(64),
  title: z.string().trim().min(1).max(120),
  key: z.string().trim().max(40).nullable(),
  tuningId: z.string().min(1).max(64).nullable(),
  instrumentId: z.string().min(1).max(64).nullable(),
});

export type Song = z.infer<typeof songSchema>;
