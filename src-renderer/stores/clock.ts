import { useSyncExternalStore } from 'react';

const everyMilliseconds = 10_000;

const subscribe = (listener: () => void): (() => void) => {
  const timer = setInterval(listener, everyMilliseconds);
  return () => clearInterval(timer);
};

/** Now, in epoch milliseconds, moving on every ten seconds: for forecasts and “heard 3 minutes ago”. */
export const useNow = (): number => useSyncExternalStore(subscribe, () => Math.floor(Date.now() / everyMilliseconds) * everyMilliseconds);
