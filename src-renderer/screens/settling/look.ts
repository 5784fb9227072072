import type { Overview } from '#shared/contract/index.ts';
import type { BridgeKind, Instrument } from '#shared/instruments/index.ts';
import type { StringChange } from '#shared/log/index.ts';
import { type Hardware, type Place, whereToLook } from '#shared/settling/index.ts';
import { daysSinceChanged } from '#shared/strung/index.ts';
import type { Row } from './rows.ts';

/** Families whose pegs turn through a worm gear, and those with planetary pegs (common practice); the others come with either kind of peg. */
const geared = ['guitar', 'bass', 'bouzouki', 'mandolin', 'mandola', 'mandocello', 'charango', 'ronroco'];
const planetary = ['banjo'];

/** What settling knows of the ways in which a string can end: by a tie round itself, or by a knot, bead or ball end. */
const ends: Readonly<Record<BridgeKind, Hardware['bridge']>> = { tied: 'tie', slotted: 'slot', pinned: 'slot', tailpiece: 'slot' };

/** How an instrument holds its strings: as the player said, else as its kind mostly does: `guitar-classical` → geared. */
export function hardwareOf({ pegs, bridge, presetId }: Pick<Instrument, 'pegs' | 'bridge' | 'presetId'>): Hardware {
  const isOf = (families: readonly string[]): boolean => families.some((family) => presetId.startsWith(family));
  const usual = isOf(geared) ? 'geared' : isOf(planetary) ? 'planetary' : null;
  return { pegs: pegs ?? usual, bridge: bridge === null ? null : ends[bridge] };
}

/** A place to look at as it is called on this instrument, and the weightiest reason for looking there. */
export type PlaceToLook = { readonly words: string; readonly because: string | null };

/** More places than this are no help at a glance. */
const mostPlaces = 3;

/** Where to look on a course whose leading string slips, likeliest first. `now` is in seconds of the epoch. */
export function looksOf(
  { instrument, stringSet }: Overview,
  changes: readonly StringChange[],
  row: Row,
  now: number,
): readonly PlaceToLook[] {
  const { course } = row;
  const [{ string, assessment, history }] = row.strings;
  const fitted = stringSet.courses[course]?.strings[string];
  if (fitted === undefined) return [];
  const looks = whereToLook({
    hardware: hardwareOf(instrument),
    string: {
      material: fitted.material,
      wound: fitted.wound,
      daysSinceChange: daysSinceChanged(stringSet, changes, { course, string }, now * 1000),
    },
    slips: assessment.slips,
    // What keeps slipping by its earlier retunes alone is not called slipping now.
    isSliding: assessment.verdict === 'slipping' && assessment.slips.length === 0,
    lastTurnCents: history.moves.at(-1)?.cents ?? null,
  });
  return looks
    .slice(0, mostPlaces)
    .map(({ place, because }) => ({ words: wordsOf(place, instrument.bridge), because: because[0] ?? null }));
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

/** The same parts where they are called otherwise. */
const otherWords: Readonly<Record<BridgeKind, Partial<Record<Place, string>>>> = {
  tied: {},
  slotted: {},
  pinned: { 'bridge knot': 'the knot under its bridge pin', 'ball end': 'the ball end under its bridge pin' },
  tailpiece: { 'bridge knot': 'the knot at the tailpiece', 'ball end': 'the loop or ball end at the tailpiece' },
};

/** `the tie at the bridge`; at a tailpiece or under a pin a part has another name. */
const wordsOf = (place: Place, bridge: BridgeKind | null): string =>
  (bridge === null ? undefined : otherWords[bridge][place]) ?? placeWords[place];
