const tokens = [
  'board',
  'fret',
  'slot',
  'ink',
  'ink-2',
  'ink-3',
  'nut',
  'string',
  'string-still',
  'on',
  'bead-below',
  'bead-above',
] as const;

/** The colours of the look as a canvas takes them, by the name of their custom property. */
export type Colours = Readonly<Record<(typeof tokens)[number], string>>;

/** Reads the colours that hold at an element now: a custom property may stand for a pair, so each is asked of a probe. */
export function coloursAt(element: Element): Colours {
  const probe = document.createElement('span');
  probe.hidden = true;
  element.append(probe);
  const read = (token: string): string => {
    probe.style.color = `var(--${token})`;
    return getComputedStyle(probe).color;
  };
  const colours = Object.fromEntries(tokens.map((token) => [token, read(token)])) as Colours;
  probe.remove();
  return colours;
}

/** Tells when the theme changes, be it the system's or the one that the player set. Returns its own unsubscriber. */
export function onThemeChange(listener: () => void): () => void {
  const system = matchMedia('(prefers-color-scheme: dark)');
  const own = new MutationObserver(listener);
  system.addEventListener('change', listener);
  own.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  return () => {
    system.removeEventListener('change', listener);
    own.disconnect();
  };
}
