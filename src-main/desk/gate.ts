import type { IncomingHttpHeaders } from 'node:http';

/** Why a request is turned away at the door. */
export type Refusal = { readonly status: 403 | 405 | 421; readonly sentence: string };

type Asked = { readonly method?: string | undefined; readonly headers: IncomingHttpHeaders };

/** What every request must satisfy: our own name as host, no other site behind it. `authority` is `127.0.0.1:port`. */
function refusalOfSender({ headers }: Asked, authority: string): Refusal | null {
  if (headers.host !== authority) return { status: 421, sentence: `Stillstring answers at ${authority} only.` };
  const site = headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none')
    return { status: 403, sentence: 'Stillstring cannot be opened from another site. Type its address.' };
  if (headers.origin !== undefined && headers.origin !== `http://${authority}`)
    return { status: 403, sentence: 'Another site may not ask Stillstring.' };
  return null;
}

/** Why a request for a file is refused, or null. */
export function refusalOfFile(asked: Asked, authority: string): Refusal | null {
  const refusal = refusalOfSender(asked, authority);
  if (refusal !== null) return refusal;
  return asked.method === 'GET' || asked.method === 'HEAD' ? null : { status: 405, sentence: 'Files can only be read.' };
}

/** Why a socket is refused, or null; a page always names its origin. The token is checked apart. */
export function refusalOfSocket(asked: Asked, path: string, authority: string): Refusal | null {
  const refusal = refusalOfSender(asked, authority);
  if (refusal !== null) return refusal;
  return asked.headers.origin !== undefined && path === '/host' ? null : { status: 403, sentence: 'This page may not use the library.' };
}

/** Why a request for another launch token is refused, or null: it comes from a program that can read the data folder, never from a page. */
export function refusalOfSecondStart(asked: Asked, authority: string, secret: string): Refusal | null {
  const refusal = refusalOfSender(asked, authority);
  if (refusal !== null) return refusal;
  const { headers } = asked;
  const fromPage = headers.origin !== undefined || headers['sec-fetch-site'] !== undefined;
  return !fromPage && headers.authorization === `Bearer ${secret}`
    ? null
    : { status: 403, sentence: 'This program may not open the library.' };
}
