export type Unsubscribe = () => void;

/** Listeners of one kind of event. `subscribe` returns its own unsubscriber; `emit` calls all that are subscribed. */
export const createSignal = <Event>() => {
  const listeners = new Set<{ readonly call: (event: Event) => void }>();
  return {
    subscribe: (call: (event: Event) => void): Unsubscribe => {
      const entry = { call };
      listeners.add(entry);
      return () => {
        listeners.delete(entry);
      };
    },
    emit: (event: Event): void => {
      for (const { call } of listeners) call(event);
    },
  };
};
