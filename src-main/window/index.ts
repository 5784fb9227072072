// Window: the Electron side of a page of ours: its scheme, its permissions, its guards, its one gate to the services, its place on the screen.
// Knows: Electron's objects, which come in as parameters. Must not know: features, the desk, the order of the start (index.ts).
// Add here: a rule of security as a function of its own, with a test that tries to break it.

export { answerPage } from './gate.ts';
export { guardContents, refuseOtherAddresses } from './guards.ts';
export { menuTemplate } from './menu.ts';
export { openWindow } from './open-window.ts';
export { frontPage } from './own-address.ts';
export { grantOnlyWhatIsNeeded } from './permissions.ts';
export { nameForNotifications, raise } from './raise.ts';
export { registerScheme, servePages } from './scheme.ts';
export { bringOnScreen, readWindowPlace, writeWindowPlace, type WindowPlace } from './window-place.ts';
