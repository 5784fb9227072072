import type { BridgeKind, Instrument, PegKind } from '#shared/instruments/index.ts';

/** What stands for “nobody said” in a choice. */
export const unsaid = 'unsaid';

const pegWords: Readonly<Record<PegKind, string>> = {
  friction: 'friction pegs',
  geared: 'geared with a worm',
  planetary: 'planetary, geared inside',
};

const bridgeWords: Readonly<Record<BridgeKind, string>> = {
  tied: 'tied, glued bridge',
  slotted: 'knotted, glued bridge',
  pinned: 'pins, glued bridge',
  tailpiece: 'tailpiece, floating bridge',
};

type Option<Kind extends string> = { readonly value: Kind | typeof unsaid; readonly words: string };

const optionsOf = <Kind extends string>(words: Readonly<Record<Kind, string>>): readonly Option<Kind>[] => [
  { value: unsaid, words: 'not said' },
  ...Object.entries<string>(words).map(([value, said]) => ({ value: value as Kind, words: said })),
];

/** The kinds of pegs and of bridges as a form offers them, “not said” first. */
export const pegOptions = optionsOf(pegWords);
export const bridgeOptions = optionsOf(bridgeWords);

/** The kind that was chosen, or null for “not said”. */
export const kindOf = <Kind extends string>(options: readonly Option<Kind>[], chosen: string): Kind | null => {
  const value = options.find((option) => option.value === chosen)?.value;
  return value === undefined || value === unsaid ? null : value;
};

/** How an instrument holds its strings: `friction pegs; tied, glued bridge`; null where nobody said anything. */
export function hardwareWords({ pegs, bridge, pegsHavePlay }: Pick<Instrument, 'pegs' | 'bridge' | 'pegsHavePlay'>): string | null {
  const parts = [pegs === null ? null : pegWords[pegs], bridge === null ? null : bridgeWords[bridge]];
  const said = [...parts, pegsHavePlay ? 'pegs with play' : null].filter((part) => part !== null);
  return said.length === 0 ? null : said.join('; ');
}
