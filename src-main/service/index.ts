// Service: what the contract promises, done on an open library; one file per feature, plain functions of (library, input).
// Knows: features, the library. Must not know: Electron, HTTP, how a request came.
// Add here: a feature as a file of its own and its row in handlers.ts.

import { dispatch, failureCodes, type Handlers, type Push, type Reply } from '#shared/contract/index.ts';
import { asFailure, openLibrary } from '../library/index.ts';
import { type Ground, makeHandlers } from './handlers.ts';
import { readOverview } from './overview.ts';

export { makeHandlers, type Ground } from './handlers.ts';

/** How often it is asked whether today has its backup. */
const backupCheckMilliseconds = 3_600_000;

/** The part of Stillstring that keeps the library, as a host holds it. */
export type Service = {
  /** Answers a request of a page, whatever it is; never throws. */
  answer(name: unknown, input: unknown): Promise<Reply>;
  /** Calls `listener` whenever a part of the library changed; returns its own unsubscriber. */
  onChanged(listener: (push: Push<'changed'>) => void): () => void;
  /** Finishes what is under way, refuses what comes after, and lets go of the library. */
  close(): Promise<void>;
};

type Options = Pick<Ground, 'facts' | 'demoFile' | 'clock'> & {
  readonly folder: string;
  /** Loads the demo library into a library that has no instrument yet. */
  readonly startWithDemo: boolean;
  /** Brings the host's window before the player; a browser brings its own page. */
  readonly raise?: () => void;
  /** Told of every fault that nobody foresaw. */
  readonly onFault: (fault: unknown) => void;
};

/** A handler that says what a player can do about SQLite's errors. */
const withPlainFailures = (handlers: Handlers): Handlers =>
  Object.fromEntries(
    Object.entries(handlers).map(([name, handler]) => [
      name,
      async (input: never): Promise<unknown> => {
        try {
          return await handler(input);
        } catch (fault) {
          throw asFailure(fault) ?? fault;
        }
      },
    ]),
  ) as Handlers;

/** Opens the library and starts to answer. Throws `library-newer` or `library-busy`. Today's backup is made on the way, unless there is one. */
export async function startService({
  folder,
  facts,
  demoFile,
  clock,
  startWithDemo,
  raise = () => undefined,
  onFault,
}: Options): Promise<Service> {
  const library = await openLibrary(folder, clock);
  const listeners = new Set<(push: Push<'changed'>) => void>();
  const handlers = withPlainFailures(
    makeHandlers({
      library,
      facts,
      demoFile,
      clock,
      raise,
      changed: (parts) => listeners.forEach((listener) => listener({ parts: [...parts] })),
    }),
  );
  if (startWithDemo && (await readOverview(library)).length === 0) await handlers['demo.load']({});
  const backUp = (): void => void library.backUpIfDue().catch(onFault);
  backUp();
  const timer = setInterval(backUp, backupCheckMilliseconds).unref();
  const underWay = new Set<Promise<Reply>>();
  let isClosing = false;
  return {
    answer(name, input) {
      if (isClosing) return Promise.resolve({ ok: false, failure: { code: 'not-reachable', sentence: failureCodes['not-reachable'] } });
      const reply = dispatch(handlers, name, input, onFault);
      underWay.add(reply);
      return reply.finally(() => underWay.delete(reply));
    },
    onChanged(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    async close() {
      isClosing = true;
      clearInterval(timer);
      await Promise.all(underWay);
      await library.close();
    },
  };
}
