import type { MenuItemConstructorOptions } from 'electron';

/** The menu: what a window needs, and the developer tools where the app runs from its source. */
export function menuTemplate(platform: NodeJS.Platform, isPackaged: boolean): MenuItemConstructorOptions[] {
  const view: MenuItemConstructorOptions[] = [
    { role: 'resetZoom' },
    { role: 'zoomIn' },
    { role: 'zoomOut' },
    { type: 'separator' },
    { role: 'togglefullscreen' },
  ];
  const forDevelopers: MenuItemConstructorOptions[] = [{ type: 'separator' }, { role: 'reload' }, { role: 'toggleDevTools' }];
  return [
    platform === 'darwin' ? { role: 'appMenu' } : { label: '&Stillstring', submenu: [{ role: 'quit' }] },
    { role: 'editMenu' },
    { label: '&View', submenu: isPackaged ? view : [...view, ...forDevelopers] },
    { role: 'windowMenu' },
  ];
}
