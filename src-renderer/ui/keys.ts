import { useEffect, useRef } from 'react';

/** Where letters are written; a switch is an input too, but takes none. */
const writing = 'input:not([type="checkbox"]), textarea';

/** Ctrl+Z, or Cmd+Z: takes back the last thing done, unless the player is writing, where it takes back the writing. */
export function useUndoKey(takeBack: () => void): void {
  const latest = useRef(takeBack);
  useEffect(() => {
    latest.current = takeBack;
  });
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const target = event.target instanceof Element ? event.target : null;
      if (!(event.ctrlKey || event.metaKey) || event.shiftKey || event.altKey || event.key.toLowerCase() !== 'z') return;
      if (target?.closest('input, textarea, [role="dialog"]')) return;
      event.preventDefault();
      latest.current();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}

/** Keys that work anywhere on a screen, unless the player is writing or a dialog is open. Named as in `KeyboardEvent.key`, letters in lower case. */
export function useKeys(keys: Readonly<Record<string, () => void>>): void {
  const latest = useRef(keys);
  useEffect(() => {
    latest.current = keys;
  });
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const target = event.target instanceof Element ? event.target : null;
      if (event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
      if (target?.closest(`${writing}, select, [role="dialog"], [role="menu"], [role="listbox"]`)) return;
      if ((event.key === ' ' || event.key === 'Enter') && target?.closest('button, a, input, [role="row"]')) return;
      const action = latest.current[event.key.length === 1 ? event.key.toLowerCase() : event.key];
      if (action === undefined) return;
      event.preventDefault();
      action();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}
