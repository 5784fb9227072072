// The year before tonight: which instrument was retuned on which evening, played through on virtual strings, as rows of a log.
import type { LogRows } from '#shared/log/index.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { playRetune, type RetunePlan, type RetuneRows } from './retune.ts';
import { instruments, stringSets, tunings } from './scenario.ts';
import { strung, type Strung } from './strung.ts';

const minuteSeconds = 60;
const daySeconds = 86_400;
const seed = 20_251_125;

/** Tunings that the player goes to, by instrument; all within what the strings bear with room to spare. */
const favourites: Readonly<Record<string, readonly string[]>> = {
  'demo-wren': ['demo-harbour-c', 'demo-lantern-e-flat', 'demo-bramble-g', 'demo-lantern-e-flat', 'demo-candle-end'],
  'demo-finch': ['demo-cold-hearth', 'demo-harbour-c', 'demo-millers-step', 'demo-ash-and-alder'],
  'demo-moth': ['demo-harbour-c', 'demo-harbour-c', 'demo-wet-slate', 'demo-bramble-g'],
  'demo-rook': ['demo-open-d', 'demo-drop-d', 'demo-open-d', 'demo-long-furrow', 'demo-open-g'],
  'demo-pip': ['demo-harbour-c', 'demo-mill-leat', 'demo-cold-hearth'],
  'demo-sedge': ['demo-ash-and-alder', 'demo-harbour-c', 'demo-candle-end'],
};

/** How often an instrument's turn comes. */
const played = ['demo-wren', 'demo-wren', 'demo-finch', 'demo-moth', 'demo-moth', 'demo-rook', 'demo-pip', 'demo-sedge'];

/** Since when the player leads, in days ago: before that, strings were set to their pitch and drifted off it. */
const leadsSinceDaysAgo = 160;

const tuningById = (id: string): Tuning => {
  const found = tunings.find((tuning) => tuning.id === id);
  if (found === undefined) throw new RangeError(`there is no tuning ${id}`);
  return found;
};
const homeOf = (instrumentId: string): Tuning => tuningById(instrumentId === 'demo-rook' ? 'demo-guitar-home' : 'demo-home');

/** The whole log, oldest first: of rows whose times are milliseconds ago, the largest come first. */
export function yearOfRows(): LogRows {
  const random = seededRandom(seed);
  const fitted = new Map<string, Strung>();
  const rows: RetuneRows[] = [];

  const onNow = (instrumentId: string, atSeconds: number): Strung => {
    const instrument = instruments.find(({ id }) => id === instrumentId);
    const set = stringSets.findLast((one) => one.instrumentId === instrumentId && -one.fittedAt / 1000 <= atSeconds);
    if (instrument === undefined || set === undefined) throw new RangeError(`${instrumentId} had no strings at ${atSeconds} seconds`);
    const known = fitted.get(set.id) ?? strung(instrument, set, random.between(0, 6));
    fitted.set(set.id, known);
    return known;
  };
  const retune = (instrumentId: string, plan: Pick<RetunePlan, 'from' | 'to' | 'atSeconds'> & Partial<RetunePlan>) =>
    rows.push(
      playRetune(random, onNow(instrumentId, plan.atSeconds), {
        leadSeconds: plan.atSeconds > -leadsSinceDaysAgo * daySeconds ? 30 * minuteSeconds : null,
        heardSeconds: null,
        slips: [],
        ...plan,
      }),
    );
  const touchUp = (instrumentId: string, atSeconds: number, more: Partial<RetunePlan> = {}) => {
    const home = homeOf(instrumentId);
    retune(instrumentId, { from: home, to: home, atSeconds, ...more });
  };
  /** Away from home for a song or two, and back. */
  const evening = (instrumentId: string, daysAgo: number, away: Partial<RetunePlan> = {}, back: Partial<RetunePlan> = {}) => {
    const atSeconds = -daysAgo * daySeconds + random.between(-60, 90) * minuteSeconds;
    const home = homeOf(instrumentId);
    const to = tuningById(random.pick(favourites[instrumentId] ?? []));
    retune(instrumentId, { from: home, to, atSeconds, ...away });
    retune(instrumentId, { from: away.to ?? to, to: home, atSeconds: atSeconds + random.between(55, 100) * minuteSeconds, ...back });
  };

  for (const { instrumentId, fittedAt } of stringSets.filter((set) => set.fittedAt < 365 * daySeconds * 1000))
    for (const hours of [2, 21, 47, 100]) touchUp(instrumentId, -fittedAt / 1000 + hours * 3600);

  const freshSets = stringSets.map(({ instrumentId, fittedAt }) => ({ instrumentId, daysAgo: fittedAt / 1000 / daySeconds }));
  for (let daysAgo = 364; daysAgo > 14; daysAgo--) {
    if (!random.chance(1.75 / 7)) continue;
    const instrumentId = random.pick(played);
    // New strings are left alone for their first week.
    const isFresh = freshSets.some((set) => set.instrumentId === instrumentId && set.daysAgo > daysAgo - 1 && set.daysAgo < daysAgo + 8);
    if (!isFresh) evening(instrumentId, daysAgo);
  }

  // The last fortnight: Rook's course 2 begins to slip, Sedge is put away unheard.
  const course2 = (...slips: readonly (readonly [afterMinutes: number, cents: number])[]): Pick<RetunePlan, 'slips'> => ({
    slips: slips.map(([afterMinutes, cents]) => ({ course: 4, afterSeconds: afterMinutes * minuteSeconds, cents })),
  });
  const openD = { to: tuningById('demo-open-d') };
  evening('demo-finch', 13);
  evening('demo-rook', 12, openD, course2([9, -8]));
  evening('demo-wren', 10);
  evening('demo-sedge', 9, {}, { heardSeconds: [] });
  evening('demo-pip', 8);
  evening('demo-moth', 7);
  evening('demo-rook', 5, { ...openD, ...course2([14, -10]) }, course2([4, -7], [22, -6]));
  evening('demo-wren', 3);
  evening('demo-finch', 2);

  // Tonight. Times are counted from the moment of loading.
  const heard = (...minutes: readonly number[]) => ({ heardSeconds: minutes.map((after) => after * minuteSeconds) });
  touchUp('demo-pip', -140 * minuteSeconds, heard(0.5, 3, 9, 24, 68));
  touchUp('demo-finch', -104 * minuteSeconds, heard(0.5, 2, 6, 15, 33, 80));
  retune('demo-rook', {
    from: homeOf('demo-rook'),
    ...openD,
    atSeconds: -78 * minuteSeconds,
    leadSeconds: 75 * minuteSeconds,
    ...heard(0.5, 1.5, 4, 9, 16, 27, 41, 62),
    ...course2([6, -11], [33, -9]),
  });
  touchUp('demo-wren', -56 * minuteSeconds, heard(0.5, 2, 5, 12, 26, 51));
  retune('demo-moth', {
    from: homeOf('demo-moth'),
    to: tuningById('demo-harbour-c'),
    atSeconds: -16 * minuteSeconds,
    ...heard(0.4, 0.9, 1.8, 3.5, 6, 9.5, 14),
  });
  return withIds(rows);
}

/** Numbers the rows from the oldest on. */
function withIds(rows: readonly RetuneRows[]): LogRows {
  const inOrder = rows
    .toSorted((a, b) => b.retune.startedAt - a.retune.startedAt)
    .map((row, index) => ({ ...row, id: `demo-retune-${index + 1}` }));
  return {
    retunes: inOrder.map(({ id, retune }) => ({ id, ...retune })),
    turns: inOrder
      .flatMap(({ id, turns }) => turns.map((turn) => ({ retuneId: id, ...turn })))
      .map((turn, index) => ({ id: `demo-turn-${index + 1}`, ...turn })),
    readings: inOrder
      .flatMap(({ id, readings }) => readings.map((reading) => ({ retuneId: id, ...reading })))
      .toSorted((a, b) => b.at - a.at)
      .map((reading, index) => ({ id: `demo-reading-${index + 1}`, ...reading })),
  };
}
