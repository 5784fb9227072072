import { stat, writeFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { askFor, authorityOf, callDesk, launchTokenOf, openTestDesk, sayRaw } from '../../support/host-desk.ts';
import { temporaryFolder } from '../../support/host.ts';

const nonceOf = (body: string): string | undefined => /<meta property="csp-nonce" nonce="([^"]+)" \/>/.exec(body)?.[1];

describe('the desk serves', () => {
  test('the front page with a nonce of its own each time, and every header', async () => {
    const desk = await openTestDesk(await temporaryFolder());
    const [first, second] = [await askFor(desk, '/'), await askFor(desk, '/?a=b')];
    expect([first.status, second.status]).toEqual([200, 200]);
    expect(nonceOf(first.body)).toBeDefined();
    expect(nonceOf(first.body)).not.toBe(nonceOf(second.body));
    expect(first.headers['content-security-policy']).toBe(
      [
        `default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self' 'nonce-${nonceOf(first.body)}'; img-src 'self' data:; font-src 'self'`,
        `connect-src 'self' ws://${authorityOf(desk)}; base-uri 'none'; form-action 'none'; frame-ancestors 'none'`,
      ].join('; '),
    );
  });

  test('the files of the page and the demo recordings, by their names and kinds', async () => {
    const desk = await openTestDesk(await temporaryFolder());
    expect(await askFor(desk, '/assets/main.js')).toMatchObject({
      status: 200,
      body: 'export {};',
      headers: { 'content-type': 'text/javascript; charset=utf-8' },
    });
    expect(await askFor(desk, '/demo/wren-retune.wav')).toMatchObject({ status: 200, headers: { 'content-type': 'audio/wav' } });
    expect(await askFor(desk, '/', { method: 'HEAD' })).toMatchObject({ status: 200, body: '' });
  });

  test('the same headers with every refusal', async () => {
    const desk = await openTestDesk(await temporaryFolder());
    const refusals = [
      await askFor(desk, '/nothing'),
      await askFor(desk, '/%'),
      await askFor(desk, '/', { method: 'PUT' }),
      await askFor(desk, '/', { headers: { Host: 'stillstring.example' } }),
      await askFor(desk, '/launch', { method: 'POST' }),
    ];
    for (const { headers } of refusals)
      expect(headers).toMatchObject({
        'content-security-policy': expect.stringContaining(`default-src 'none'`),
        'permissions-policy': expect.stringContaining('microphone=(self)'),
        'x-content-type-options': 'nosniff',
        'cross-origin-resource-policy': 'same-origin',
      });
  });
});

describe('the desk refuses', () => {
  test.each([
    ['another host name', '/', { headers: { Host: 'stillstring.example' } }, 421],
    ['its own port under another name', '/', { headers: { Host: 'localhost:1' } }, 421],
    ['another origin', '/', { headers: { Origin: 'http://stillstring.example' } }, 403],
    ['the origin of another local port', '/', { headers: { Origin: 'http://127.0.0.1:1' } }, 403],
    ['an origin that hides itself', '/', { headers: { Origin: 'null' } }, 403],
    ['a link on another site', '/', { headers: { 'Sec-Fetch-Site': 'cross-site' } }, 403],
    ['a page of another local port', '/', { headers: { 'Sec-Fetch-Site': 'same-site' } }, 403],
    ['writing', '/', { method: 'POST' }, 405],
    ['deleting', '/assets/main.js', { method: 'DELETE' }, 405],
    ['a preflight', '/', { method: 'OPTIONS' }, 405],
    ['a file that is not a page’s', '/demo/truth.json', {}, 404],
    ['climbing out', '/../secret.txt', {}, 404],
    ['climbing out from a folder', '/assets/../../secret.txt', {}, 404],
    ['climbing out in percent signs', '/%2e%2e/secret.txt', {}, 404],
    ['climbing out with the stroke in percent signs', '/..%2fsecret.txt', {}, 404],
    ['climbing out in percent signs twice', '/%252e%252e%252fsecret.txt', {}, 404],
    ['climbing out with the other stroke', '/..%5csecret.txt', {}, 404],
    ['a whole path of the system', '//etc/passwd', {}, 404],
    ['a name with a null in it', '/index.html%00', {}, 404],
    ['a percent sign alone', '/%', {}, 400],
    ['half a letter', '/%e4', {}, 400],
  ])('%s', async (_what, path, asking, status) => {
    const desk = await openTestDesk(await temporaryFolder());
    expect((await askFor(desk, path, asking)).status).toBe(status);
    // And it lives on.
    expect((await askFor(desk, '/')).status).toBe(200);
  });

  test('a request without a host', async () => {
    const desk = await openTestDesk(await temporaryFolder());
    expect(await sayRaw(desk, 'GET / HTTP/1.1\r\nConnection: close\r\n\r\n')).toMatch(/^HTTP\/1\.1 4\d\d/);
    expect(await sayRaw(desk, 'GET / HTTP/1.0\r\n\r\n')).toMatch(/^HTTP\/1\.1 421/);
  });
});

describe('a socket of the desk', () => {
  test('is opened once by a launch token, and after that by the session token it was exchanged for', async () => {
    const desk = await openTestDesk(await temporaryFolder());
    const launch = launchTokenOf(desk.address);
    const opened = await callDesk(desk, { protocols: ['stillstring', `launch.${launch}`] });
    if ('refused' in opened) throw new Error(`refused with ${opened.refused}`);
    const { session } = (await opened.first) as { session: string };
    expect(await callDesk(desk, { protocols: ['stillstring', `launch.${launch}`] })).toEqual({ refused: 403 });
    expect(await callDesk(desk, { protocols: ['stillstring', `session.${session}`] })).toHaveProperty('socket');
    expect(await callDesk(desk, { protocols: ['stillstring', `launch.${session}`] })).toEqual({ refused: 403 });
  });

  test.each([
    ['no token', { protocols: ['stillstring'] }],
    ['no subprotocol', {}],
    ['a wrong launch token', { protocols: ['stillstring', 'launch.AAAA'] }],
    ['a wrong session token', { protocols: ['stillstring', 'session.AAAA'] }],
    ['an empty token', { protocols: ['stillstring', 'session.'] }],
    ['a token of no kind', { protocols: ['stillstring', 'other.AAAA'] }],
  ])('with %s is refused', async (_what, calling) => {
    const desk = await openTestDesk(await temporaryFolder());
    expect(await callDesk(desk, calling)).toEqual({ refused: 403 });
  });

  test('is refused to another origin, no origin, another path and another host, whatever its token, which stays unused', async () => {
    const desk = await openTestDesk(await temporaryFolder());
    const protocols = ['stillstring', `launch.${launchTokenOf(desk.address)}`];
    expect(await callDesk(desk, { protocols, origin: 'http://stillstring.example' })).toEqual({ refused: 403 });
    expect(await callDesk(desk, { protocols, origin: 'http://127.0.0.1:1' })).toEqual({ refused: 403 });
    expect(await callDesk(desk, { protocols, origin: '' })).toEqual({ refused: 403 });
    expect(await callDesk(desk, { protocols, path: '/' })).toEqual({ refused: 403 });
    expect(await callDesk(desk, { protocols, headers: { Host: 'stillstring.example' } })).toEqual({ refused: 421 });
    expect(await callDesk(desk, { protocols, headers: { 'Sec-Fetch-Site': 'cross-site' } })).toEqual({ refused: 403 });
    expect(await callDesk(desk, { protocols })).toHaveProperty('socket');
  });

  test.each(['no JSON', '7', 'null', '{}', '{"id":"1"}'])('that says %s is closed, and the desk lives on', async (words) => {
    const desk = await openTestDesk(await temporaryFolder());
    const opened = await callDesk(desk, { protocols: ['stillstring', `launch.${launchTokenOf(desk.address)}`] });
    if ('refused' in opened) throw new Error(`refused with ${opened.refused}`);
    await opened.first;
    const closed = new Promise<number>((resolve) => opened.socket.once('close', resolve));
    opened.socket.send(words);
    expect(await closed).toBe(1003);
    expect((await askFor(desk, '/')).status).toBe(200);
  });
});

describe('a second start', () => {
  test('uses the desk that runs on the same data folder, with a launch token of its own', async () => {
    const folder = await temporaryFolder();
    const first = await openTestDesk(folder);
    const second = await openTestDesk(folder);
    expect(second.close).toBeNull();
    expect(authorityOf(second)).toBe(authorityOf(first));
    expect(launchTokenOf(second.address)).not.toBe(launchTokenOf(first.address));
    for (const { address } of [first, second])
      expect(await callDesk(first, { protocols: ['stillstring', `launch.${launchTokenOf(address)}`] })).toHaveProperty('socket');
  });

  test('is let in by a note that only the player can read, and only as a program', async () => {
    const folder = await temporaryFolder();
    const desk = await openTestDesk(folder);
    const note = join(folder, 'data', 'desk.json');
    if (process.platform !== 'win32') expect((await stat(note)).mode & 0o777).toBe(0o600);
    const { default: noted } = (await import(note, { with: { type: 'json' } })) as { default: { secret: string } };
    const Authorization = `Bearer ${noted.secret}`;
    const ask = async (headers: Record<string, string>): Promise<number> =>
      (await askFor(desk, '/launch', { method: 'POST', headers })).status;
    expect(await ask({})).toBe(403);
    expect(await ask({ Authorization: 'Bearer AAAA' })).toBe(403);
    expect(await ask({ Authorization, Origin: `http://${authorityOf(desk)}` })).toBe(403);
    expect(await ask({ Authorization, 'Sec-Fetch-Site': 'same-origin' })).toBe(403);
    expect(await ask({ Authorization, Host: 'stillstring.example' })).toBe(421);
    expect(await ask({ Authorization })).toBe(200);
  });

  test('after a desk that was killed opens a new one, whatever stands in the note', async () => {
    const folder = await temporaryFolder();
    const gone = await openTestDesk(folder);
    await gone.close?.();
    for (const note of [JSON.stringify({ port: 1, secret: 'of a desk that is gone' }), 'cut sho']) {
      await writeFile(join(folder, 'data', 'desk.json'), note);
      const desk = await openTestDesk(folder);
      expect(desk.close).not.toBeNull();
      await desk.close?.();
    }
  });
});

describe('the port', () => {
  test('is the preferred one, and the next when another program has that', async () => {
    const other = createServer();
    await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
    onTestFinished(() => void other.close());
    const taken = (other.address() as AddressInfo).port;
    const desk = await openTestDesk(await temporaryFolder(), taken);
    expect(Number(new URL(desk.address).port)).toBeGreaterThan(taken);
    await desk.close?.();
    const port = Number(new URL(desk.address).port);
    const again = await openTestDesk(await temporaryFolder(), port);
    expect(new URL(again.address).port).toBe(String(port));
  });
});
