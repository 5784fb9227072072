let last: Promise<unknown> = Promise.resolve();

/**
 * Does work after all work that was handed in before, so that the host has one piece of it at a time and answers other requests in between. Where
 * `signal` is aborted before its turn comes it is left out, and the promise refused.
 */
export function inTurn<Result>(signal: AbortSignal, work: () => Promise<Result>): Promise<Result> {
  const mine = last.then(() => {
    signal.throwIfAborted();
    return work();
  });
  last = mine.catch(() => undefined);
  return mine;
}
