import type { Session, SystemPreferences, WebContents } from 'electron';
import { isOwnAddress } from './own-address.ts';

type Ground = {
  /** Whether this is the one window of ours. */
  readonly isOurs: (contents: WebContents) => boolean;
  readonly platform: NodeJS.Platform;
  readonly system: Pick<SystemPreferences, 'askForMediaAccess'>;
};

/**
 * Grants the microphone to the main frame of our own page, and nothing else to anyone; Electron would grant everything. On macOS the system is
 * asked too, and its no is passed on.
 */
export function grantMicrophoneOnly(
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
      permission === 'media' &&
      details.mediaType !== 'video' &&
      details.isMainFrame &&
      contents !== null &&
      isOurs(contents) &&
      isOwnAddress(origin),
  );
  session.setDevicePermissionHandler(() => false);
}
