import { readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';

/** Long enough for a desk that is busy, short enough not to be noticed where it is gone. */
const answerMilliseconds = 2000;

const noteSchema = z.strictObject({ port: z.number().int().min(1).max(65_535), secret: z.string().min(1) });

/** What a running desk leaves in the data folder, so that a second start can find it and is let in. */
type Note = z.infer<typeof noteSchema>;

const notePath = (folder: string): string => join(folder, 'desk.json');

/** Leaves the note; only the player's own programs can read it. */
export async function leaveNote(folder: string, note: Note): Promise<void> {
  const unfinished = `${notePath(folder)}.part`;
  await rm(unfinished, { force: true });
  await writeFile(unfinished, JSON.stringify(note), { mode: 0o600 });
  await rename(unfinished, notePath(folder));
}

/** Takes the note away. */
export const takeNote = (folder: string): Promise<void> => rm(notePath(folder), { force: true });

async function readNote(folder: string): Promise<Note | null> {
  try {
    return noteSchema.parse(JSON.parse(await readFile(notePath(folder), 'utf8')));
  } catch {
    // No note, or one that was cut short: then no desk is known to run.
    return null;
  }
}

/** The address, with a launch token of its own, at which a desk already runs on this data folder; null where none answers. */
export async function addressOfRunningDesk(folder: string): Promise<string | null> {
  const note = await readNote(folder);
  if (note === null) return null;
  try {
    const answer = await fetch(`http://127.0.0.1:${note.port}/launch`, {
      method: 'POST',
      headers: { Authorization: `Bearer ${note.secret}` },
      signal: AbortSignal.timeout(answerMilliseconds),
    });
    return answer.ok ? z.strictObject({ address: z.string() }).parse(await answer.json()).address : null;
  } catch {
    // The note outlived its desk (a power cut, a kill), or another program has the port now.
    return null;
  }
}
