import type { IncomingMessage, Server } from 'node:http';
import type { Duplex } from 'node:stream';
import { type RawData, type WebSocket, WebSocketServer } from 'ws';
import type { Service } from '../service/index.ts';
import { refusalOfSocket } from './gate.ts';
import type { Tokens } from './tokens.ts';

/** The subprotocol that a page asks for; beside it stands `launch.TOKEN` or `session.TOKEN`. */
const subprotocol = 'stillstring';
/** A library file that is taken in travels in one message, its quotes and signs escaped. */
const greatestMessageBytes = 96 * 1024 * 1024;
/** A message that is no request of ours (RFC 6455, section 7.4.1: data of a kind that cannot be accepted). */
const notUnderstood = 1003;

type Question = { readonly id: number; readonly name: unknown; readonly input: unknown };

function questionIn(data: RawData): Question | null {
  try {
    const message: unknown = JSON.parse((data as Buffer).toString('utf8'));
    if (typeof message !== 'object' || message === null || !('id' in message) || typeof message.id !== 'number') return null;
    return { id: message.id, name: 'name' in message ? message.name : null, input: 'input' in message ? message.input : null };
  } catch {
    return null;
  }
}

/** The session that a page may use: the one it has, or a new one for its launch token. `fresh` ones are sent to the page. */
function sessionOf(request: IncomingMessage, tokens: Tokens): { readonly fresh: string | null } | null {
  const protocols = (request.headers['sec-websocket-protocol'] ?? '').split(',').map((protocol) => protocol.trim());
  const [own, ticket = ''] = protocols;
  if (own !== subprotocol || protocols.length !== 2) return null;
  if (ticket.startsWith('session.')) return tokens.isSession(ticket.slice('session.'.length)) ? { fresh: null } : null;
  if (!ticket.startsWith('launch.')) return null;
  const fresh = tokens.exchange(ticket.slice('launch.'.length));
  return fresh === null ? null : { fresh };
}

function converse(socket: WebSocket, service: Service): void {
  const send = (message: object): void => {
    if (socket.readyState === socket.OPEN) socket.send(JSON.stringify(message));
  };
  const off = service.onChanged((push) => send({ push: 'changed', data: push }));
  socket.on('close', off);
  // ws closes the socket after an error by itself; without a listener the error would end the process.
  socket.on('error', () => socket.terminate());
  socket.on('message', (data) => {
    const question = questionIn(data);
    if (question === null) return socket.close(notUnderstood);
    void service.answer(question.name, question.input).then((reply) => send({ id: question.id, reply }));
  });
}

/** Lets pages of ours, with a token, ask the service over a WebSocket at `/host`. Returns what closes every socket. */
export function acceptSockets(server: Server, authority: string, tokens: Tokens, service: Service): () => void {
  const sockets = new WebSocketServer({ noServer: true, maxPayload: greatestMessageBytes, handleProtocols: () => subprotocol });
  server.on('upgrade', (request: IncomingMessage, stream: Duplex, head: Buffer) => {
    stream.on('error', () => stream.destroy());
    const refusal = refusalOfSocket(request, request.url ?? '', authority);
    const session = refusal === null ? sessionOf(request, tokens) : null;
    if (session === null) {
      const status = refusal?.status === 421 ? '421 Misdirected Request' : '403 Forbidden';
      stream.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
      return;
    }
    sockets.handleUpgrade(request, stream, head, (socket) => {
      if (session.fresh !== null) socket.send(JSON.stringify({ session: session.fresh }));
      converse(socket, service);
    });
  });
  return () => {
    for (const socket of sockets.clients) socket.terminate();
    sockets.close();
  };
}
