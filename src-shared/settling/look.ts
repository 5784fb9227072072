import type { Slip, StringFacts } from './types.ts';

// What to look at on a string that slips, likeliest first. All of it is common practice among players and repairers; no statistics were found.

/** How the strings are held. Null: not known. */
export interface Hardware {
  /** Friction pegs hold by their screw or taper; geared ones have a worm, which cannot be driven backwards; planetary ones hold by drag inside a housing. */
  readonly pegs: 'friction' | 'geared' | 'planetary' | null;
  /** A tied string loops round itself; in a slot it hangs by a knot, bead or ball end. */
  readonly bridge: 'tie' | 'slot' | null;
}

/** A part to look at. */
export type Place = 'peg screw' | 'peg housing' | 'peg gear' | 'peg windings' | 'bridge tie' | 'bridge knot' | 'ball end' | 'nut slot';

/** A part with the reasons for looking there, the weightier first. */
export interface Look {
  readonly place: Place;
  readonly because: readonly string[];
}

/**
 * A slipping string: how it is held, what it is, what it did (slips of this retune, oldest first; none = it slides, or it slipped in earlier retunes
 * alone), and its last turn in cents (null: none known).
 */
export interface Slipping {
  readonly hardware: Hardware;
  readonly string: StringFacts;
  readonly slips: readonly Slip[];
  readonly isSliding: boolean;
  readonly lastTurnCents: number | null;
}

interface Clue {
  readonly place: Place;
  readonly weight: number;
  readonly because: string;
  readonly fits: (facts: Facts) => boolean;
}

interface Facts extends Slipping {
  /** `step`: in earlier retunes, in a direction that is no longer told. */
  readonly movement: 'down' | 'up' | 'step' | 'slide';
  readonly isNew: boolean;
}

const newDays = 10;
const steel = ({ string }: Facts) => string.material === 'steel';
const tied = ({ hardware: { bridge } }: Facts) => bridge !== 'slot';
const plain = ({ string: { wound, material } }: Facts) => !wound && material !== 'steel';
const smooth = ({ string: { material } }: Facts) => material === 'fluorocarbon' || material === 'nylon';

const clues: readonly Clue[] = [
  {
    place: 'peg screw',
    weight: 5,
    because: 'a friction peg holds only as hard as its screw is tightened',
    fits: ({ hardware }) => hardware.pegs === 'friction',
  },
  {
    place: 'peg screw',
    weight: 3,
    because: 'a steady slide is a peg turning back',
    fits: ({ movement, hardware: { pegs } }) => movement === 'slide' && (pegs === 'friction' || pegs === null),
  },
  { place: 'peg screw', weight: 4, because: 'most pegs have a screw that sets their drag', fits: ({ hardware }) => hardware.pegs === null },
  {
    place: 'peg housing',
    weight: 3,
    because: 'a planetary peg turns back as a whole when its housing is loose in the headstock',
    fits: ({ hardware }) => hardware.pegs === 'planetary',
  },
  {
    place: 'peg gear',
    weight: 1,
    because: 'a worm does not run back by itself, but its screw and bushing work loose',
    fits: ({ hardware }) => hardware.pegs === 'geared',
  },
  { place: 'peg windings', weight: 2, because: 'few or crossed turns on the peg slip over one another', fits: () => true },
  { place: 'peg windings', weight: 2, because: 'turns of a new string draw tight on the peg', fits: ({ isNew }) => isNew },
  {
    place: 'bridge tie',
    weight: 2.5,
    because: 'a tie that is not tucked under slips a little at a time',
    fits: (f) => tied(f) && !steel(f),
  },
  { place: 'bridge tie', weight: 2.5, because: 'a new tie draws tight', fits: (f) => tied(f) && !steel(f) && f.isNew },
  { place: 'bridge tie', weight: 1, because: 'plain nylon and fluorocarbon are smooth', fits: (f) => tied(f) && plain(f) && smooth(f) },
  { place: 'bridge knot', weight: 2, because: 'a small knot is pulled into its slot', fits: (f) => !tied(f) && !steel(f) },
  { place: 'bridge knot', weight: 2.5, because: 'a new knot draws tight', fits: (f) => !tied(f) && !steel(f) && f.isNew },
  { place: 'ball end', weight: 1, because: 'a ball end that is not seated works its way in', fits: steel },
  {
    place: 'nut slot',
    weight: 1,
    because: 'a tight slot holds a string and lets it go in steps',
    fits: ({ movement }) => movement !== 'slide',
  },
  {
    place: 'nut slot',
    weight: 6,
    because: 'it jumped up: a raised string that caught in the nut lets go sharp',
    fits: ({ movement, lastTurnCents }) => movement === 'up' && (lastTurnCents ?? 1) > 0,
  },
  {
    place: 'nut slot',
    weight: 3,
    because: 'a lowered string that caught in the nut lets go flat',
    fits: ({ movement, lastTurnCents }) => movement === 'down' && (lastTurnCents ?? 1) < 0,
  },
  {
    place: 'nut slot',
    weight: 1.5,
    because: 'windings catch in a slot',
    fits: ({ string, movement }) => string.wound && movement !== 'slide',
  },
];

function movementOf({ slips, isSliding }: Slipping): Facts['movement'] {
  const last = slips.at(-1);
  if (last === undefined) return isSliding ? 'slide' : 'step';
  return last.cents < 0 ? 'down' : 'up';
}

/**
 * Where to look, likeliest first, by the instrument's hardware, the string and the way it slipped.
 * `whereToLook({ hardware: { pegs: 'friction', bridge: 'tie' }, string, slips: [], isSliding: true, lastTurnCents: 200 })[0]?.place` → 'peg screw'.
 */
export function whereToLook(slipping: Slipping): readonly Look[] {
  const { daysSinceChange } = slipping.string;
  const movement = movementOf(slipping);
  const facts: Facts = { ...slipping, movement, isNew: daysSinceChange !== null && daysSinceChange < newDays };
  const fitting = clues.filter(({ fits }) => fits(facts)).sort((a, b) => b.weight - a.weight);
  const places = [...new Set(fitting.map(({ place }) => place))];
  return places
    .map((place) => {
      const own = fitting.filter((clue) => clue.place === place);
      return { place, because: own.map(({ because }) => because), weight: own.reduce((sum, { weight }) => sum + weight, 0) };
    })
    .sort((a, b) => b.weight - a.weight)
    .map(({ place, because }) => ({ place, because }));
}
