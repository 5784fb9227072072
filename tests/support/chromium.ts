import { existsSync } from 'node:fs';
import { chromium } from 'playwright';

/** Debian's Chromium, else the one that playwright installed; null where there is neither. */
export function chromiumPath(): string | null {
  const places = ['/usr/bin/chromium', chromium.executablePath()];
  return places.find((place) => existsSync(place)) ?? null;
}

/** What Chromium is started with, so that a recording is its microphone (a path), or it has none (null), and it leaves the network alone. */
export function chromiumArguments(microphone: string | null): readonly string[] {
  const quiet = [
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--autoplay-policy=no-user-gesture-required',
  ];
  const sound =
    microphone === null
      ? []
      : ['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream', `--use-file-for-fake-audio-capture=${microphone}%noloop`];
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  return [...quiet, ...sound, ...asRoot];
}
