import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { bringOnScreen, readWindowPlace, type WindowPlace, writeWindowPlace } from '../../../../src-main/window/index.ts';
import { temporaryFolder } from '../../../support/host.ts';

const laptop = { x: 0, y: 25, width: 1440, height: 875 };
const beside = { x: 1440, y: 0, width: 1920, height: 1080 };
const place = (x: number, y: number, width = 1000, height = 700): WindowPlace => ({ x, y, width, height, maximised: false });

describe('the window opens', () => {
  test('in the middle of the first screen at the first start', () => {
    expect(bringOnScreen(null, [laptop])).toEqual({ x: 80, y: 63, width: 1280, height: 800, maximised: false });
  });

  test.each([
    ['where it stood', place(1500, 100), [laptop, beside], place(1500, 100)],
    ['where it stood, half off the screen', place(-800, 100), [laptop], place(-800, 100)],
    ['on the screen that is left', place(1500, 100), [laptop], place(220, 113)],
    ['back from where it could not be grasped', place(1400, 100), [laptop], place(220, 113)],
    ['no larger than its screen', place(100, 100, 3000, 2000), [laptop], { ...laptop, x: 100, y: 100, maximised: false }],
    ['with its title bar in reach', place(100, -300), [laptop], place(100, 25)],
  ] as const)('%s', (_what, kept, [first, ...others], opened) => {
    expect(bringOnScreen(kept, [first, ...others])).toEqual(opened);
  });

  test('maximised where it was', () => {
    expect(bringOnScreen({ ...place(100, 100), maximised: true }, [laptop]).maximised).toBe(true);
  });

  test('in the middle where its kept place cannot be read', async () => {
    const folder = await temporaryFolder();
    expect(await readWindowPlace(folder)).toBeNull();
    await writeWindowPlace(folder, place(5, 6));
    expect(await readWindowPlace(folder)).toEqual(place(5, 6));
    await writeFile(join(folder, 'window.json'), '{"x":');
    expect(await readWindowPlace(folder)).toBeNull();
    await writeFile(join(folder, 'window.json'), '{"x":1,"y":2,"width":0,"height":5,"maximised":false}');
    expect(await readWindowPlace(folder)).toBeNull();
  });
});
