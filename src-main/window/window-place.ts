import { readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Rectangle } from 'electron';
import { z } from 'zod';

const placeSchema = z.strictObject({
  x: z.number().int(),
  y: z.number().int(),
  width: z.number().int().min(1),
  height: z.number().int().min(1),
  maximised: z.boolean(),
});

/** Where the window stood, in screen points. */
export type WindowPlace = z.infer<typeof placeSchema>;

const usual = { width: 1280, height: 800 };
/** So much of the window must be on some screen for it to be found again, in points. */
const graspable = { width: 120, height: 80 };

const placePath = (folder: string): string => join(folder, 'window.json');

/** The place that was kept, or null where none was or it cannot be read. */
export async function readWindowPlace(folder: string): Promise<WindowPlace | null> {
  try {
    return placeSchema.parse(JSON.parse(await readFile(placePath(folder), 'utf8')));
  } catch {
    // A lost place is no loss: the window opens in the middle.
    return null;
  }
}

/** Keeps the place for the next start. */
export async function writeWindowPlace(folder: string, place: WindowPlace): Promise<void> {
  await writeFile(`${placePath(folder)}.part`, JSON.stringify(place));
  await rename(`${placePath(folder)}.part`, placePath(folder));
}

const overlap = (from: number, length: number, areaFrom: number, areaLength: number): number =>
  Math.min(from + length, areaFrom + areaLength) - Math.max(from, areaFrom);

/**
 * The place to open at: the kept one where enough of it is on a screen, no larger than that screen; else the usual size in the middle of the
 * first. `workAreas` are the screens without their bars, the first one first.
 */
export function bringOnScreen(kept: WindowPlace | null, workAreas: readonly [Rectangle, ...Rectangle[]]): WindowPlace {
  const screen = workAreas.find(
    (area) =>
      kept !== null &&
      overlap(kept.x, kept.width, area.x, area.width) >= graspable.width &&
      overlap(kept.y, kept.height, area.y, area.height) >= graspable.height,
  );
  const area = screen ?? workAreas[0];
  const width = Math.min(kept?.width ?? usual.width, area.width);
  const height = Math.min(kept?.height ?? usual.height, area.height);
  const maximised = kept?.maximised ?? false;
  if (kept === null || screen === undefined)
    return {
      x: Math.round(area.x + (area.width - width) / 2),
      y: Math.round(area.y + (area.height - height) / 2),
      width,
      height,
      maximised,
    };
  // The title bar must not be above the screen, or the window could not be moved.
  return { x: kept.x, y: Math.max(kept.y, area.y), width, height, maximised };
}
