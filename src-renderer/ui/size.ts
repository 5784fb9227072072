import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

export type Size = { readonly width: number; readonly height: number };

/** A ref and the size in px of the element that it is put on; 0 × 0 until it is laid out. */
export function useSize<Element extends globalThis.Element>(): readonly [RefObject<Element | null>, Size] {
  const ref = useRef<Element>(null);
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return undefined;
    const measure = (): void => {
      const { width, height } = element.getBoundingClientRect();
      setSize((before) => (before.width === width && before.height === height ? before : { width, height }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, size];
}
