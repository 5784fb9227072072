import { seededRandom, type Random } from '#shared/simulation/strings/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { playRetune, type RetunePlan, type RetuneRows } from './retune.ts';
import { instruments, stringSets, tunings } from './scenario.ts';
import { strung, type Strung } from './strung.ts';

/** Tunings that the player goes to, by instrument; all within what the strings bear with room to spare. */
const favourites: Readonly<Record<string, readonly string[]>> = {
  'demo-wren': ['demo-harbour-c', 'demo-lantern-e-flat', 'demo-bramble-g', 'demo-lantern-e-flat', 'demo-candle-end'],
  'demo-finch': ['demo-cold-hearth', 'demo-harbour-c', 'demo-millers-step', 'demo-ash-and-alder'],
  'demo-moth': ['demo-harbour-c', 'demo-harbour-c', 'demo-wet-slate', 'demo-bramble-g'],
  'demo-rook': ['demo-open-d', 'demo-drop-d', 'demo-open-d', 'demo-long-furrow', 'demo-open-g'],
  'demo-pip': ['demo-harbour-c', 'demo-mill-leat', 'demo-cold-hearth'],
  'demo-sedge': ['demo-ash-and-alder', 'demo-harbour-c', 'demo-candle-end'],
};

/** Since when the player leads, in days ago: before that, strings were set to their pitch and drifted off it. */
const leadsSinceDaysAgo = 160;
const leadSeconds = 1800;
const daySeconds = 86_400;
const minuteSeconds = 60;

/** What of a plan is said where it is not the usual one. */
export type Differently = Partial<RetunePlan>;

/** The player: what she does to her instruments, and the rows that come of it. Each string set has to be played in order of time. */
export type Player = {
  readonly random: Random;
  readonly rows: readonly RetuneRows[];
  readonly retune: (instrumentId: string, to: Tuning, atSeconds: number, differently?: Differently) => void;
  readonly touchUp: (instrumentId: string, atSeconds: number, differently?: Differently) => void;
  /** Away from home for a song or two, to one of the instrument's favourites, and back. */
  readonly evening: (instrumentId: string, daysAgo: number, away?: Differently, back?: Differently) => void;
};

/** The tuning of that id. Throws RangeError where there is none. */
export function tuningById(id: string): Tuning {
  const found = tunings.find((tuning) => tuning.id === id);
  if (found === undefined) throw new RangeError(`there is no tuning ${id}`);
  return found;
}

const homeOf = (instrumentId: string): Tuning => tuningById(instrumentId === 'demo-rook' ? 'demo-guitar-home' : 'demo-home');

/** A player with freshly kept instruments; the same seed plays the same year. */
export function playerFrom(seed: number): Player {
  const random = seededRandom(seed);
  const fitted = new Map<string, Strung>();
  const rows: RetuneRows[] = [];

  const stringsAt = (instrumentId: string, atSeconds: number): Strung => {
    const instrument = instruments.find(({ id }) => id === instrumentId);
    const set = stringSets.findLast((one) => one.instrumentId === instrumentId && -one.fittedAt / 1000 <= atSeconds);
    if (instrument === undefined || set === undefined) throw new RangeError(`${instrumentId} had no strings at ${atSeconds} seconds`);
    const known = fitted.get(set.id) ?? strung(instrument, set, random.between(0, 6));
    fitted.set(set.id, known);
    return known;
  };

  const retune: Player['retune'] = (instrumentId, to, atSeconds, differently = {}) => {
    const lead = atSeconds > -leadsSinceDaysAgo * daySeconds ? leadSeconds : null;
    rows.push(
      playRetune(random, stringsAt(instrumentId, atSeconds), {
        from: homeOf(instrumentId),
        to,
        atSeconds,
        leadSeconds: lead,
        leaveAloneCents: 2.2,
        heardSeconds: null,
        slips: [],
        ...differently,
      }),
    );
  };

  return {
    random,
    rows,
    retune,
    touchUp: (instrumentId, atSeconds, differently) => retune(instrumentId, homeOf(instrumentId), atSeconds, differently),
    evening: (instrumentId, daysAgo, away = {}, back = {}) => {
      const atSeconds = -daysAgo * daySeconds + random.between(-60, 90) * minuteSeconds;
      const favourite = tuningById(random.pick(favourites[instrumentId] ?? []));
      const to = away.to ?? favourite;
      retune(instrumentId, to, atSeconds, away);
      retune(instrumentId, homeOf(instrumentId), atSeconds + random.between(55, 100) * minuteSeconds, { from: to, ...back });
    },
  };
}
