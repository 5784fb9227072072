import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

export type Size = { readonly width: number; readonly height: number };

/** A ref and the size in px of what the element that it is put on holds inside its borders; 0 × 0 until it is laid out. */
export function useSize<Element extends globalThis.Element>(): readonly [RefObject<Element | null>, Size] {
  const ref = useRef<Element>(null);
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return undefined;
    const observer = new ResizeObserver(([entry]) => {
      if (entry === undefined) return;
      const { width, height } = entry.contentRect;
      setSize((before) => (before.width === width && before.height === height ? before : { width, height }));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, size];
}
