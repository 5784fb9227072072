import { mkdir, writeFile } from 'node:fs/promises';
import { request } from 'node:http';
import { connect } from 'node:net';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { WebSocket } from 'ws';
import { type Desk, openDesk } from '../../src-main/desk.ts';
import { evening } from './host.ts';

/** A desk over a few files in a folder of its own, on any free port; closed when the test is over. */
export async function openTestDesk(folder: string, port = 0): Promise<Desk> {
  const webRoot = join(folder, 'web');
  const recordings = join(folder, 'recordings');
  await mkdir(join(webRoot, 'assets'), { recursive: true });
  await mkdir(recordings, { recursive: true });
  await writeFile(join(webRoot, 'index.html'), '<!doctype html><html><head><title>Stillstring</title></head></html>');
  await writeFile(join(webRoot, 'assets', 'main.js'), 'export {};');
  await writeFile(join(recordings, 'wren-retune.wav'), 'RIFF');
  await writeFile(join(recordings, 'truth.json'), '{}');
  await writeFile(join(folder, 'secret.txt'), 'not for a page');
  const desk = await openDesk({
    folder: join(folder, 'data'),
    facts: { host: 'desk', version: '0.0.0', demoMicrophone: null },
    demoFile: join(folder, 'no-demo.json'),
    clock: () => evening,
    startWithDemo: false,
    onFault: (fault) => {
      throw fault;
    },
    webRoot,
    recordings,
    port,
  });
  onTestFinished(async () => desk.close?.());
  return desk;
}

export const authorityOf = ({ address }: Desk): string => new URL(address).host;
export const launchTokenOf = (address: string): string => new URL(address).hash.slice('#launch='.length);

export type Answer = {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: string;
};

type Asking = { readonly method?: string; readonly headers?: Record<string, string> };

/** Asks for a path exactly as it is written; `fetch` would tidy it up and set headers of its own. */
export function askFor(desk: Desk, path: string, { method = 'GET', headers = {} }: Asking = {}): Promise<Answer> {
  const authority = authorityOf(desk);
  const { hostname, port } = new URL(desk.address);
  return new Promise((resolve, reject) => {
    const asked = request({ hostname, port, path, method, headers: { Host: authority, ...headers }, agent: false }, (response) => {
      let body = '';
      response.setEncoding('utf8');
      response.on('data', (text: string) => (body += text));
      response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
    });
    asked.once('error', reject);
    asked.end();
  });
}

/** Sends bytes as they are and returns the first line of what comes back. */
export function sayRaw(desk: Desk, text: string): Promise<string> {
  const { hostname, port } = new URL(desk.address);
  return new Promise((resolve, reject) => {
    const socket = connect(Number(port), hostname, () => socket.write(text));
    let answer = '';
    socket.on('data', (bytes: Buffer) => (answer += bytes.toString('utf8')));
    socket.once('close', () => resolve(answer.split('\r\n')[0] ?? ''));
    socket.once('error', reject);
  });
}

type Calling = {
  readonly protocols?: readonly string[];
  readonly origin?: string | undefined;
  readonly path?: string;
  readonly headers?: Record<string, string>;
};

/** Opens a socket. Returns it, with what it is told first, or the status that it was refused with. */
export function callDesk(
  desk: Desk,
  { protocols = [], origin = `http://${authorityOf(desk)}`, path = '/host', headers = {} }: Calling,
): Promise<{ readonly socket: WebSocket; readonly first: Promise<unknown> } | { readonly refused: number }> {
  return new Promise((resolve, reject) => {
    const socket = new WebSocket(`ws://${authorityOf(desk)}${path}`, [...protocols], { ...(origin === '' ? {} : { origin }), headers });
    const first = new Promise<unknown>((tell) => socket.once('message', (data: Buffer) => tell(JSON.parse(data.toString('utf8')))));
    socket.once('unexpected-response', (_request, response) => {
      resolve({ refused: response.statusCode ?? 0 });
      socket.terminate();
    });
    socket.once('open', () => {
      onTestFinished(() => socket.terminate());
      resolve({ socket, first });
    });
    socket.once('error', (fault) => reject(fault));
  });
}
