/** Whether the part that keeps the library is there: `refused` for a page that was not opened from Stillstring's own address. */
export type Connection = 'connecting' | 'open' | 'lost' | 'refused';

/** Where the connection stands, and who wants to know. */
export type ConnectionState = {
  readonly now: () => Connection;
  readonly set: (next: Connection) => void;
  /** Calls `listener` at every change; returns its own unsubscriber. */
  readonly subscribe: (listener: () => void) => () => void;
};

export function makeConnectionState(): ConnectionState {
  let connection: Connection = 'connecting';
  const listeners = new Set<() => void>();
  return {
    now: () => connection,
    set(next) {
      if (next === connection) return;
      connection = next;
      for (const listener of listeners) listener();
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
}
