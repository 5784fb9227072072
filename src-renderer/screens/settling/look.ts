import type { Overview } from '#shared/contract/index.ts';
import type { StringChange } from '#shared/log/index.ts';
import { type Hardware, type Look, type Place, whereToLook } from '#shared/settling/index.ts';
import { daysSinceChanged } from '#shared/strung/index.ts';
import type { Row } from './rows.ts';

/** Families whose pegs turn through a worm gear, and those with planetary pegs (common practice); the others come with either kind of peg. */
const geared = ['guitar', 'bass', 'bouzouki', 'mandolin', 'mandola', 'mandocello', 'charango', 'ronroco'];
const planetary = ['banjo'];

/** How an instrument holds its strings, as its kind mostly does: `guitar-classical` → geared. How a string is held at the bridge is not known. */
export function hardwareOf(presetId: string): Hardware {
  const isOf = (families: readonly string[]): boolean => families.some((family) => presetId.startsWith(family));
  return { pegs: isOf(geared) ? 'geared' : isOf(planetary) ? 'planetary' : null, bridge: null };
}

/** Where to look on a course whose leading string slips, likeliest first. `now` is in seconds of the epoch. */
export function looksOf({ instrument, stringSet }: Overview, changes: readonly StringChange[], row: Row, now: number): readonly Look[] {
  const { course } = row;
  const [{ string, assessment, history }] = row.strings;
  const fitted = stringSet.courses[course]?.strings[string];
  if (fitted === undefined) return [];
  return whereToLook({
    hardware: hardwareOf(instrument.presetId),
    string: {
      material: fitted.material,
      wound: fitted.wound,
      daysSinceChange: daysSinceChanged(stringSet, changes, { course, string }, now * 1000),
    },
    slips: assessment.slips,
    lastTurnCents: history.moves.at(-1)?.cents ?? null,
  });
}

const placeWords: Readonly<Record<Place, string>> = {
  'peg screw': 'the peg screw',
  'peg housing': 'the housing of the peg',
  'peg gear': 'the gear of the peg',
  'peg windings': 'the windings on the peg',
  'bridge tie': 'the tie at the bridge',
  'bridge knot': 'the knot at the bridge',
  'ball end': 'the ball end',
  'nut slot': 'the nut slot',
};

/** More places than this are no help at a glance. */
const mostPlaces = 3;

/** The places in words, likeliest first: `the peg screw`, `the tie at the bridge`, `the nut slot`. */
export const placesOf = (looks: readonly Look[]): readonly string[] => looks.slice(0, mostPlaces).map(({ place }) => placeWords[place]);
