import type { App, BrowserWindow } from 'electron';

/** Brings the window before the player: out of the dock, from behind others. Without a window nothing happens. */
export function raise(window: Pick<BrowserWindow, 'isMinimized' | 'restore' | 'show' | 'focus'> | null): void {
  if (window === null) return;
  if (window.isMinimized()) window.restore();
  window.show();
  window.focus();
}

/** The name under which Windows shows notifications of ours; elsewhere the system knows the app (electronjs.org/docs/latest/tutorial/notifications). */
export function nameForNotifications(app: Pick<App, 'setAppUserModelId'>, platform: NodeJS.Platform): void {
  if (platform === 'win32') app.setAppUserModelId('Stillstring');
}
