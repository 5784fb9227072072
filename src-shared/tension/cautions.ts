/** Ordinary care with strings under tension, each with an id that stays. */
export type Caution = { readonly id: string; readonly sentence: string };

/** Every caution, the gravest first. Own wording; the facts are common practice. None of them promises anything about an instrument. */
export const cautions = [
  {
    id: 'face-away',
    sentence:
      'A string under tension can break and whip. Keep your face and eyes out of its line while you bring it up, turn slowly near the top; glasses help.',
  },
  {
    id: 'maker-decides',
    sentence:
      'The maker of the instrument decides what load it may carry; these estimates cover the string only. Where the maker names a tension or a kind of string, follow that; if in doubt, ask a qualified luthier.',
  },
  {
    id: 'no-steel-on-nylon',
    sentence:
      'An instrument built for nylon strings is not for steel strings, nor for those of a guitar, banjo or mandolin: bridges lift and tops warp.',
  },
  {
    id: 'near-the-limit',
    sentence: 'This string comes near the stress at which strings of its kind break. An old one may go before that.',
  },
  {
    id: 'old-strings',
    sentence: 'The margin is that of a fresh string. Nicks over frets, knots and sharp nut slots take from it.',
  },
  {
    id: 'another-string',
    sentence: 'This is further than the string is made for. Fit another string for that pitch.',
  },
  {
    id: 'beyond-rating',
    sentence: 'That is more than its maker rates this string for. Fit another string, or ask the maker first.',
  },
  {
    id: 'whole-load',
    sentence:
      'All strings together pull clearly more than in the home tuning. Ask the maker or a qualified luthier before you leave it like that.',
  },
  { id: 'soft', sentence: 'The string gets soft here: it may buzz, and its pitch wanders more when it is plucked or pressed hard.' },
  {
    id: 'loosen-first',
    sentence: 'Loosen first, then tighten. On a bridge that is held by the strings alone, never take all of them off at once.',
  },
  { id: 'up-to-pitch', sentence: 'Come up to the pitch from below, so that no slack is left on the peg.' },
  { id: 'new-string', sentence: 'Hold the bridge while you stretch a new string by hand.' },
  { id: 'heat-and-frost', sentence: 'Do not leave an instrument at pitch in a hot or freezing car.' },
  { id: 'hearing', sentence: 'Listen at a comfortable level; the reference sound need not be loud.' },
  { id: 'about', sentence: 'Pull and margins are estimates; where a figure has a band, believe the band.' },
] as const satisfies readonly Caution[];

export type CautionId = (typeof cautions)[number]['id'];

/** The sentence of a caution. `cautionSentence('soft')` → “The string gets soft here: …”. */
export function cautionSentence(id: CautionId): string {
  const found = cautions.find((caution) => caution.id === id);
  if (found === undefined) throw new RangeError(`there is no caution ${id}`);
  return found.sentence;
}
