import { type RefObject, useLayoutEffect, useRef } from 'react';

/** A ref for something that covers the window: while it is there, nothing else can be reached by keyboard or by a screen reader; what announces stays audible. */
export function useAlone<Element extends HTMLElement>(): RefObject<Element | null> {
  const ref = useRef<Element>(null);
  useLayoutEffect(() => {
    const hidden: HTMLElement[] = [];
    for (let here: HTMLElement | null = ref.current; here !== null && here !== document.body; here = here.parentElement) {
      for (const beside of here.parentElement?.children ?? []) {
        if (beside === here || !(beside instanceof HTMLElement) || beside.inert || beside.matches('[role="status"], script, style'))
          continue;
        beside.inert = true;
        hidden.push(beside);
      }
    }
    return () => {
      for (const beside of hidden) beside.inert = false;
    };
  }, []);
  return ref;
}
