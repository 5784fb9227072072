import { describe, expect, test } from 'vitest';
import { dataFolder } from '../../../src-main/data-folder.ts';

describe('the data folder', () => {
  test.each([
    ['linux', {}, '/home/ann/.local/share/stillstring'],
    ['linux', { XDG_DATA_HOME: '/data/ann' }, '/data/ann/stillstring'],
    ['linux', { XDG_DATA_HOME: 'data' }, '/home/ann/.local/share/stillstring'],
    ['linux', { STILLSTRING_DATA: '/music/strings' }, '/music/strings'],
    ['linux', { STILLSTRING_DATA: '' }, '/home/ann/.local/share/stillstring'],
    ['darwin', {}, '/home/ann/Library/Application Support/Stillstring'],
  ] as const)('on %s with %j is %s', (platform, environment, folder) => {
    expect(dataFolder(false, { platform, environment, home: '/home/ann' })).toBe(folder);
  });

  test('on Windows roams with the player', () => {
    const environment = { APPDATA: 'C:\\Users\\ann\\AppData\\Roaming' };
    expect(dataFolder(false, { platform: 'win32', environment, home: 'C:\\Users\\ann' })).toBe(
      'C:\\Users\\ann\\AppData\\Roaming\\Stillstring',
    );
  });

  test('of the demo library lies inside, so that it never touches the player’s own', () => {
    expect(dataFolder(true, { platform: 'linux', environment: { STILLSTRING_DATA: '/music' }, home: '/home/ann' })).toBe('/music/demo');
  });
});
