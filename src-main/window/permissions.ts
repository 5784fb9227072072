import type { Session, SystemPreferences, WebContents } from 'electron';
import { isOwnAddress } from './own-address.ts';

type Ground = {
  /** Whether this is the one window of ours. */
  readonly isOurs: (contents: WebContents) => boolean;
  readonly platform: NodeJS.Platform;
  readonly system: Pick<SystemPreferences, 'askForMediaAccess'>;
};

/**
 * Grants the microphone to the main frame of our own page, and reminders to our own pages; nothing else to anyone, where Electron would grant
 * everything. On macOS the system is asked for the microphone too, and its no is passed on.
 */
export function grantOnlyWhatIsNeeded(
  session: Pick<Session, 'setPermissionRequestHandler' | 'setPermissionCheckHandler' | 'setDevicePermissionHandler'>,
  { isOurs, platform, system }: Ground,
): void {
  session.setPermissionRequestHandler((contents, permission, answer, details) => {
    const types = 'mediaTypes' in details ? (details.mediaTypes ?? []) : [];
    const isSoundOnly = permission === 'media' && types.length > 0 && types.every((type) => type === 'audio');
    if (!isSoundOnly || !isOurs(contents) || !details.isMainFrame || !isOwnAddress(details.requestingUrl)) return answer(false);
    if (platform !== 'darwin') return answer(true);
    system.askForMediaAccess('microphone').then(answer, () => answer(false));
  });
  // The first check of a page names no kind of medium; a camera is always named.
  session.setPermissionCheckHandler(
    (contents, permission, origin, details) =>
      isOwnAddress(origin) &&
      // A check of notifications names no window (electronjs.org/docs/latest/api/session, setPermissionCheckHandler).
      (permission === 'notifications' ||
        (permission === 'media' && details.mediaType !== 'video' && details.isMainFrame && contents !== null && isOurs(contents))),
  );
  session.setDevicePermissionHandler(() => false);
}
