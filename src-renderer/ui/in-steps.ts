import { useCallback, useState } from 'react';

const step = 40;
/** How far below the window the end of the list may be when the next rows are added. */
const ahead = '600px';

/**
 * Shows a long list in steps: its first rows at once, more of them whenever its end comes near the window. Set `end` on an element after the
 * last row shown; null once all are there. `atLeast` rows are always shown, for one that must be among them.
 */
export function useInSteps(
  count: number,
  atLeast: number,
): { readonly shown: number; readonly end: ((element: Element | null) => (() => void) | undefined) | null } {
  const [wanted, setWanted] = useState(step);
  const shown = Math.min(count, Math.max(wanted, atLeast));
  const end = useCallback(
    (element: Element | null) => {
      if (element === null) return undefined;
      const watch = new IntersectionObserver(([entry]) => entry?.isIntersecting === true && setWanted(shown + step), { rootMargin: ahead });
      watch.observe(element);
      return () => watch.disconnect();
    },
    [shown],
  );
  return { shown, end: shown < count ? end : null };
}
