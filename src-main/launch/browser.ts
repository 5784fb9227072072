import { spawn } from 'node:child_process';

/** Whether a window or a browser could be shown here. On Linux that takes an X or a Wayland display. */
export const hasDisplay = (environment: NodeJS.ProcessEnv = process.env, platform: NodeJS.Platform = process.platform): boolean =>
  platform !== 'linux' || Boolean(environment['DISPLAY'] || environment['WAYLAND_DISPLAY']);

const openers: Partial<Record<NodeJS.Platform, readonly [string, ...string[]]>> = {
  darwin: ['open'],
  // `start` takes a first quoted argument for a title.
  win32: ['cmd', '/c', 'start', '""'],
};

/** Opens an address of ours in the player's browser. Returns false where there is no program for that. */
export function openBrowser(address: string): Promise<boolean> {
  const [program, ...args] = openers[process.platform] ?? (['xdg-open'] as const);
  return new Promise((resolve) => {
    const opener = spawn(program, [...args, address], { stdio: 'ignore', detached: true });
    opener.once('error', () => resolve(false));
    opener.once('spawn', () => {
      opener.unref();
      resolve(true);
    });
  });
}
