import { randomBytes } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { extname, join, sep } from 'node:path';
import { securityHeaders } from './headers.ts';

const contentTypes: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.map': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.wav': 'audio/wav',
};

/** An answer, whichever host gives it. */
export type Page = { readonly status: number; readonly headers: Readonly<Record<string, string>>; readonly body: Uint8Array };

/** Answers the path of an address, still percent-encoded. Never throws for a path, whatever it is. */
export type Pages = (path: string) => Promise<Page>;

type Folders = { readonly web: string; readonly recordings: string };

async function filesIn(folder: string): Promise<readonly string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1));
}

/** Every path that is answered, and its file. A path that is not a row here is not found, so none can lead out of the folders. */
async function listFiles({ web, recordings }: Folders): Promise<ReadonlyMap<string, string>> {
  const webFiles = (await filesIn(web)).map((name) => [`/${name.replaceAll(sep, '/')}`, join(web, name)] as const);
  const names = (await filesIn(recordings)).filter((name) => extname(name) === '.wav' && !name.includes(sep));
  return new Map([...webFiles, ...names.map((name) => [`/demo/${name}`, join(recordings, name)] as const)]);
}

/** The recording that stands in for the microphone on the demo library: the first of a whole retune, or null where there is none. */
export async function demoMicrophone(recordings: string): Promise<string | null> {
  const retunes = (await filesIn(recordings)).filter((name) => name.endsWith('-retune.wav')).toSorted();
  return retunes[0] === undefined ? null : `/demo/${retunes[0]}`;
}

function decoded(path: string): string | null {
  try {
    return decodeURIComponent(path);
  } catch {
    return null;
  }
}

/**
 * Serves the built renderer and the demo recordings. `socket` is the address that the policy lets a page connect to, or null.
 * The list of files is read anew whenever the front page is asked for, so that a new build shows on reload.
 */
export function makePages(folders: Folders, socket: string | null): Pages {
  let files: ReadonlyMap<string, string> | null = null;
  return async (path) => {
    const nonce = randomBytes(16).toString('base64');
    const headers = securityHeaders(nonce, socket);
    const plain = (status: number, sentence: string): Page => ({
      status,
      headers: { ...headers, 'Content-Type': 'text/plain; charset=utf-8' },
      body: Buffer.from(sentence),
    });
    const wanted = path === '/' ? '/index.html' : decoded(path);
    if (wanted === null) return plain(400, 'This address is not written correctly.');
    if (files === null || wanted === '/index.html') files = await listFiles(folders);
    const file = files.get(wanted);
    const body = file === undefined ? null : await readFile(file).catch(() => null);
    if (file === undefined || body === null) return plain(404, 'There is no such page.');
    const type = contentTypes[extname(file)] ?? 'application/octet-stream';
    const withNonce = (html: Buffer): Buffer =>
      Buffer.from(html.toString('utf8').replace('<head>', `<head><meta property="csp-nonce" nonce="${nonce}" />`));
    return { status: 200, headers: { ...headers, 'Content-Type': type }, body: type.startsWith('text/html') ? withNonce(body) : body };
  };
}
