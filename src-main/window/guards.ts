import type { Session, WebContents } from 'electron';
import { isOwnAddress } from './own-address.ts';

/** Keeps a page where it is: it leaves our own pages for nothing, opens no windows and embeds no other page. */
export function guardContents(contents: Pick<WebContents, 'on' | 'setWindowOpenHandler'>): void {
  contents.on('will-navigate', (event) => {
    if (!isOwnAddress(event.url)) event.preventDefault();
  });
  contents.on('will-frame-navigate', (event) => {
    if (!event.isMainFrame || !isOwnAddress(event.url)) event.preventDefault();
  });
  contents.on('will-redirect', (event) => event.preventDefault());
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
}

/** What a page draws or saves from its own memory, and the developer tools, never leave this computer. */
const localProtocols = ['data:', 'blob:', 'devtools:'];

/** Cancels every request that is not for a page of ours: the app has no business on the network. */
export function refuseOtherAddresses(session: Pick<Session, 'webRequest'>): void {
  session.webRequest.onBeforeRequest((details, answer) => {
    const isLocal = URL.canParse(details.url) && localProtocols.includes(new URL(details.url).protocol);
    answer({ cancel: !isLocal && !isOwnAddress(details.url) });
  });
}
