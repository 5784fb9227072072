import { useEffect, useRef, useState } from 'react';

/** Words that change faster than this cannot be read. */
const restMilliseconds = 140;

/** A value that changes at most about seven times a second; the latest one always arrives. */
export function useCalm<Value>(value: Value): Value {
  const [shown, setShown] = useState(value);
  const lastChange = useRef(0);
  useEffect(() => {
    const wait = Math.max(0, lastChange.current + restMilliseconds - performance.now());
    const timer = setTimeout(() => {
      lastChange.current = performance.now();
      setShown(value);
    }, wait);
    return () => clearTimeout(timer);
  }, [value]);
  return shown;
}
