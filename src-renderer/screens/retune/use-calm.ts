import { useEffect, useState } from 'react';
import type { StoreApi } from 'zustand/vanilla';
import { shallow } from 'zustand/vanilla/shallow';

/** Words that change faster than this cannot be read. */
const restMilliseconds = 140;

/** Those that look again when the rest is over: all at once, so that it is one render. */
const waiting = new Set<() => void>();
let timer: ReturnType<typeof setTimeout> | null = null;

function wake(): void {
  timer = null;
  const looks = [...waiting];
  waiting.clear();
  for (const look of looks) look();
}

function lookLater(look: () => void): void {
  waiting.add(look);
  timer ??= setTimeout(wake, restMilliseconds);
}

/**
 * What a store holds, looked at no more often than words can be read; the latest always arrives. A store that changes with every frame of
 * sound costs a render only where what is selected has changed. `select` must follow from `key` and the state alone.
 */
export function useCalm<State, Value>(store: StoreApi<State>, select: (state: State) => Value, key: string | number): Value {
  const [shown, setShown] = useState({ key, value: select(store.getState()) });
  useEffect(() => {
    let latest: { readonly key: string | number; readonly value: Value } | null = null;
    const look = (): void => {
      const value = select(store.getState());
      if (latest !== null && shallow(latest.value, value)) return;
      latest = { key, value };
      setShown(latest);
    };
    look();
    const off = store.subscribe(() => lookLater(look));
    return () => {
      off();
      waiting.delete(look);
    };
    // The selection is named by its key.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [store, key]);
  return shown.key === key ? shown.value : select(store.getState());
}
