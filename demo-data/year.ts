// The year before tonight: which instrument was retuned on which evening, played through on virtual strings, as rows of a log.
import type { LogRows } from '#shared/log/index.ts';
import { playerFrom, tuningById, type Differently, type Player } from './player.ts';
import type { RetuneRows } from './retune.ts';
import { stringSets } from './scenario.ts';

const hourSeconds = 3600;
const minuteSeconds = 60;
const dayMilliseconds = 86_400_000;
const seed = 20_251_125;

/** How often an instrument's turn comes. */
const played = ['demo-wren', 'demo-wren', 'demo-finch', 'demo-moth', 'demo-moth', 'demo-rook', 'demo-pip', 'demo-sedge'];

/** The whole log, oldest first: of rows whose times are milliseconds ago, the largest come first. */
export function yearOfRows(): LogRows {
  const player = playerFrom(seed);
  newStrings(player);
  evenings(player);
  lastFortnight(player);
  tonight(player);
  return withIds(player.rows);
}

/** New strings are touched up four times in their first days. */
function newStrings({ touchUp }: Player): void {
  for (const { instrumentId, fittedAt } of stringSets.filter((set) => set.fittedAt < 365 * dayMilliseconds))
    for (const hours of [2, 21, 47, 100]) touchUp(instrumentId, -fittedAt / 1000 + hours * hourSeconds);
}

/** About two evenings a week at home; strings in their first week are left alone. */
function evenings({ random, evening }: Player): void {
  for (let daysAgo = 364; daysAgo > 14; daysAgo--) {
    if (!random.chance(1.75 / 7)) continue;
    const instrumentId = random.pick(played);
    const isFresh = stringSets.some((set) => {
      const ageDays = set.fittedAt / dayMilliseconds - daysAgo;
      return set.instrumentId === instrumentId && ageDays > -1 && ageDays < 8;
    });
    if (!isFresh) evening(instrumentId, daysAgo);
  }
}

/** Course 2 of Rook gives way, so many minutes after a retune by so many cents. */
const course2Slips = (...slips: readonly (readonly [afterMinutes: number, cents: number])[]): Differently => ({
  slips: slips.map(([afterMinutes, cents]) => ({ course: 4, afterSeconds: afterMinutes * minuteSeconds, cents })),
});

/** Rook's course 2 begins to slip; Sedge is put away unheard. */
function lastFortnight({ evening }: Player): void {
  const openD = { to: tuningById('demo-open-d') };
  evening('demo-finch', 13);
  evening('demo-rook', 12, openD, course2Slips([9, -8]));
  evening('demo-wren', 10);
  evening('demo-sedge', 9, {}, { heardSeconds: [] });
  evening('demo-pip', 8);
  evening('demo-moth', 7);
  evening('demo-rook', 5, { ...openD, ...course2Slips([14, -10]) }, course2Slips([4, -7], [22, -6]));
  evening('demo-wren', 3);
  evening('demo-finch', 2);
}

/** Heard so many minutes afterwards, by a player who takes care. */
const heardAfter = (...minutes: readonly number[]): Differently => ({
  leaveAloneCents: 1,
  heardSeconds: minutes.map((after) => after * minuteSeconds),
});

/** Tonight: Pip, Finch and Wren hold at home, Rook slips in open D, Moth has just been retuned. */
function tonight({ touchUp, retune }: Player): void {
  const ago = (minutes: number) => -minutes * minuteSeconds;
  touchUp('demo-pip', ago(140), heardAfter(0.5, 3, 9, 24, 68));
  touchUp('demo-finch', ago(104), heardAfter(0.5, 2, 6, 15, 33, 80));
  retune('demo-rook', tuningById('demo-open-d'), ago(78), {
    leadSeconds: 75 * minuteSeconds,
    ...heardAfter(0.5, 1.5, 4, 9, 16, 27, 41, 62),
    ...course2Slips([6, -11], [33, -9]),
  });
  touchUp('demo-wren', ago(56), heardAfter(0.5, 2, 5, 12, 26, 51));
  retune('demo-moth', tuningById('demo-harbour-c'), ago(16), heardAfter(0.4, 0.9, 1.8, 3.5, 6, 9.5, 14));
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
