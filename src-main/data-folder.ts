import { homedir } from 'node:os';
import { posix, win32 } from 'node:path';

/** What the place of the data depends on; taken from the process where not given. */
type Surroundings = {
  readonly environment?: Readonly<Record<string, string | undefined>>;
  readonly platform?: NodeJS.Platform;
  readonly home?: string;
};

/**
 * The folder that holds the library, its backups and the window's place: one and the same for both hosts. `STILLSTRING_DATA` overrides the
 * platform's convention (XDG base directories on Linux); the demo library lives in a folder of its own inside.
 * `dataFolder(false, { environment: {}, platform: 'linux', home: '/home/ann' })` → `/home/ann/.local/share/stillstring`.
 */
export function dataFolder(
  demo: boolean,
  { environment = process.env, platform = process.platform, home = homedir() }: Surroundings = {},
): string {
  const path = platform === 'win32' ? win32 : posix;
  const conventional = (): string => {
    const { APPDATA: roaming, XDG_DATA_HOME: data = '' } = environment;
    if (platform === 'win32') return path.join(roaming ?? path.join(home, 'AppData', 'Roaming'), 'Stillstring');
    if (platform === 'darwin') return path.join(home, 'Library', 'Application Support', 'Stillstring');
    // The XDG specification says to ignore a relative path.
    return path.join(path.isAbsolute(data) ? data : path.join(home, '.local', 'share'), 'stillstring');
  };
  const folder = environment['STILLSTRING_DATA'] || conventional();
  return demo ? path.join(folder, 'demo') : folder;
}
