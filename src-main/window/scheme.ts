import type { Protocol } from 'electron';
import type { Pages } from '../pages/index.ts';
import { isOwnAddress, scheme } from './own-address.ts';

/** Makes our scheme one that a page may use a microphone and workers under. Electron takes it only before it is ready. */
export function registerScheme(protocol: Pick<Protocol, 'registerSchemesAsPrivileged'>): void {
  protocol.registerSchemesAsPrivileged([{ scheme, privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } }]);
}

/** Answers addresses of our scheme from the list of pages, for reading only. */
export function servePages(protocol: Pick<Protocol, 'handle'>, pages: Pages): void {
  protocol.handle(scheme, async ({ method, url }) => {
    if (method !== 'GET' && method !== 'HEAD') return new Response('Files can only be read.', { status: 405 });
    if (!isOwnAddress(url)) return new Response('There is no such page.', { status: 404 });
    const { status, headers, body } = await pages(new URL(url).pathname);
    return new Response(method === 'HEAD' ? null : new Uint8Array(body), { status, headers });
  });
}
