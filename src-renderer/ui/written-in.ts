import { type RefObject, useEffect, useRef } from 'react';

const caretKeys = new Set(['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'Home', 'End']);
const pointing = ['pointerdown', 'mousedown', 'dblclick'] as const;

/**
 * A ref for a part of a list's row that is written in: presses in it choose words, not the row, and the keys that move the caret do not go on to the next
 * row. The list does not get to see them; the browser still does what it does with them.
 */
export function useWrittenIn<Element extends HTMLElement>(): RefObject<Element | null> {
  const ref = useRef<Element>(null);
  useEffect(() => {
    const element = ref.current;
    if (element === null) return undefined;
    const keep = (event: Event): void => event.stopPropagation();
    const onKey = (event: KeyboardEvent): void => {
      if (caretKeys.has(event.key) && event.target instanceof Node && element.contains(event.target)) event.stopPropagation();
    };
    for (const name of pointing) element.addEventListener(name, keep);
    window.addEventListener('keydown', onKey, true);
    return () => {
      for (const name of pointing) element.removeEventListener(name, keep);
      window.removeEventListener('keydown', onKey, true);
    };
  }, []);
  return ref;
}
