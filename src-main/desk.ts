// The desk: the same services and the same pages as in the Electron window, served to a browser on this computer.
// Knows: HTTP on the loopback interface, sockets, tokens, who may ask. Must not know: features, Electron.
// Add here: nothing for a new request of the contract; a rule at the door goes to desk/gate.ts with a request that it must refuse.

import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { type Refusal, refusalOfFile, refusalOfSecondStart } from './desk/gate.ts';
import { listenOnPort } from './desk/listen-on-port.ts';
import { addressOfRunningDesk, leaveNote, takeNote } from './desk/running-desk.ts';
import { acceptSockets } from './desk/sockets.ts';
import { makeTokens, secret, type Tokens } from './desk/tokens.ts';
import { makePages, type Pages, securityHeaders } from './pages/index.ts';
import { startService } from './service/index.ts';

/** The port at which the desk is found, unless another program has it or `STILLSTRING_PORT` says otherwise. */
export const preferredPort = 47_113;

type Options = Parameters<typeof startService>[0] & {
  readonly webRoot: string;
  readonly recordings: string;
  readonly port: number;
};

/** A desk that can be opened at `address`; the token in it is good once. `close` is null where the desk belongs to another process. */
export type Desk = { readonly address: string; readonly close: (() => Promise<void>) | null };

const pathOf = (request: IncomingMessage): string => (request.url ?? '/').split('?', 1)[0] ?? '/';

function refuse(response: ServerResponse, { status, sentence }: Refusal): void {
  response.writeHead(status, { ...securityHeaders(secret(), null), 'Content-Type': 'text/plain; charset=utf-8' }).end(sentence);
}

/** Answers requests for files, and a second start's request for another launch token. */
function answerRequests(authority: string, tokens: Tokens, noteSecret: string, pages: Pages) {
  const addressOf = (token: string): string => `http://${authority}/#launch=${token}`;
  return async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const secondStart = request.method === 'POST' && pathOf(request) === '/launch';
    const refusal = secondStart ? refusalOfSecondStart(request, authority, noteSecret) : refusalOfFile(request, authority);
    if (refusal !== null) return refuse(response, refusal);
    if (secondStart) {
      response.writeHead(200, { ...securityHeaders(secret(), null), 'Content-Type': 'application/json' });
      response.end(JSON.stringify({ address: addressOf(tokens.launch()) }));
      return;
    }
    const page = await pages(pathOf(request));
    response.writeHead(page.status, { ...page.headers, 'Content-Length': page.body.byteLength });
    response.end(request.method === 'HEAD' ? undefined : page.body);
  };
}

/**
 * Opens the desk on a data folder: the one that already runs there, else a new one.
 * Throws `library-newer` or `library-busy` as a `HostFailure`, and what the system says where no port can be had.
 */
export async function openDesk({ webRoot, recordings, port: preferred, ...options }: Options): Promise<Desk> {
  const running = await addressOfRunningDesk(options.folder);
  if (running !== null) return { address: running, close: null };

  const service = await startService(options);
  const server = createServer();
  try {
    const port = await listenOnPort(server, preferred);
    const authority = `127.0.0.1:${port}`;
    const tokens = makeTokens();
    const noteSecret = secret();
    const answer = answerRequests(authority, tokens, noteSecret, makePages({ web: webRoot, recordings }, `ws://${authority}`));
    server.on('request', (request, response) => {
      answer(request, response).catch((fault: unknown) => {
        options.onFault(fault);
        response.destroy();
      });
    });
    const closeSockets = acceptSockets(server, authority, tokens, service);
    await leaveNote(options.folder, { port, secret: noteSecret });
    return {
      address: `http://${authority}/#launch=${tokens.launch()}`,
      async close() {
        await takeNote(options.folder);
        closeSockets();
        server.close();
        server.closeAllConnections();
        await service.close();
      },
    };
  } catch (fault) {
    server.close();
    await service.close();
    throw fault;
  }
}
