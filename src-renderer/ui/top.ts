import { type RefObject, useEffect, useRef } from 'react';

/** A ref for a page that takes a list's place: when it appears, the screen is at its top, wherever the list was scrolled to. */
export function useTop<Element extends globalThis.Element>(): RefObject<Element | null> {
  const ref = useRef<Element>(null);
  useEffect(() => {
    const main = ref.current?.closest('main');
    if (main !== null && main !== undefined) main.scrollTop = 0;
  }, []);
  return ref;
}
