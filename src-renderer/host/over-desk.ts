import {
  HostFailure,
  libraryParts,
  type Host,
  type Input,
  type Output,
  type Push,
  type PushName,
  type Reply,
  type RequestName,
} from '#shared/contract/index.ts';
import type { ConnectionState } from './connection.ts';
import { valueOf } from './reply.ts';
import { takeTicket, type Ticket } from './ticket.ts';

/** Between two attempts to connect, in milliseconds: soon at first, then at an easy pace. */
const pauses = [100, 250, 500, 1000, 2000] as const;
/** How long a request waits for a lost connection before it fails as not reachable. */
const patienceMilliseconds = 10_000;

type Waiting = {
  readonly text: string;
  readonly resolve: (reply: Reply) => void;
  readonly reject: (failure: HostFailure) => void;
};

type Message =
  | { readonly session: string }
  | { readonly push: PushName; readonly data: unknown }
  | { readonly id: number; readonly reply: Reply };

/** Whether the desk answers at all: a browser does not say why a socket was refused. */
const deskAnswers = (): Promise<boolean> =>
  fetch('/', { method: 'HEAD', cache: 'no-store' }).then(
    () => true,
    () => false,
  );

/** A connection to the desk that comes back by itself. Requests wait for it; sending one twice does no harm, since rows are told apart by their ids. */
class DeskConnection {
  readonly #state: ConnectionState;
  readonly #ticket: Ticket;
  readonly #waiting = new Map<number, Waiting>();
  readonly #listeners = new Set<(name: PushName, data: unknown) => void>();
  #socket: WebSocket | null = null;
  #attempts = 0;
  #nextId = 1;

  constructor(state: ConnectionState, ticket: Ticket) {
    this.#state = state;
    this.#ticket = ticket;
    this.#connect();
  }

  ask(name: RequestName, input: unknown): Promise<Reply> {
    if (this.#state.now() === 'refused') return Promise.reject(new HostFailure('not-allowed'));
    const id = this.#nextId++;
    const text = JSON.stringify({ id, name, input });
    return new Promise<Reply>((resolve, reject) => {
      const timer = setTimeout(() => {
        // While the connection stands, a slow answer is still an answer.
        if (this.#state.now() !== 'open' && this.#waiting.delete(id)) reject(new HostFailure('not-reachable'));
      }, patienceMilliseconds);
      const settled =
        <Value>(settle: (value: Value) => void) =>
        (value: Value): void => {
          clearTimeout(timer);
          settle(value);
        };
      this.#waiting.set(id, { text, resolve: settled(resolve), reject: settled(reject) });
      if (this.#state.now() === 'open') this.#socket?.send(text);
    });
  }

  onPush(listener: (name: PushName, data: unknown) => void): () => void {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  }

  #connect(): void {
    const protocol = this.#ticket.protocol();
    if (protocol === null) return this.#refuse();
    const socket = new WebSocket(`ws://${location.host}/host`, ['stillstring', protocol]);
    this.#socket = socket;
    socket.addEventListener('open', () => {
      const wasLost = this.#state.now() === 'lost';
      this.#attempts = 0;
      this.#state.set('open');
      for (const { text } of this.#waiting.values()) socket.send(text);
      // What changed during the break was not pushed: everything is asked for again.
      if (wasLost) this.#push('changed', { parts: libraryParts });
    });
    socket.addEventListener('message', ({ data }) => this.#receive(JSON.parse(String(data)) as Message));
    socket.addEventListener('close', () => void this.#reconnect());
  }

  async #reconnect(): Promise<void> {
    const wasOpen = this.#state.now() === 'open';
    if (!wasOpen && (await deskAnswers())) return this.#refuse();
    this.#state.set('lost');
    const pause = pauses[Math.min(this.#attempts, pauses.length - 1)];
    this.#attempts += 1;
    setTimeout(() => this.#connect(), pause);
  }

  #refuse(): void {
    this.#state.set('refused');
    for (const { reject } of this.#waiting.values()) reject(new HostFailure('not-allowed'));
    this.#waiting.clear();
  }

  #receive(message: Message): void {
    if ('session' in message) return this.#ticket.keep(message.session);
    if ('push' in message) return this.#push(message.push, message.data);
    this.#waiting.get(message.id)?.resolve(message.reply);
    this.#waiting.delete(message.id);
  }

  #push(name: PushName, data: unknown): void {
    for (const listener of this.#listeners) listener(name, data);
  }
}

/** The host behind the desk's socket. */
export function hostOverDesk(state: ConnectionState): Host {
  const connection = new DeskConnection(state, takeTicket());
  return {
    async ask<Name extends RequestName>(name: Name, input: Input<Name>) {
      return valueOf(await connection.ask(name, input)) as Output<Name>;
    },
    on<Name extends PushName>(name: Name, listener: (push: Push<Name>) => void) {
      return connection.onPush((pushed, data) => {
        if (pushed === name) listener(data as Push<Name>);
      });
    },
  };
}
