// What matching answered, counted by kind and as confusion tables.
import { type Match, surelyMatched } from '#shared/matching/index.ts';
import { print } from '../settling/table.ts';

const verdicts = ['right', 'right, in doubt', 'wrong', 'wrong, in doubt', 'asks', 'refused'] as const;
type Verdict = (typeof verdicts)[number];

const percent = (part: number, all: number): string => `${((100 * part) / all).toFixed(2)} %`;

function verdictOf(match: Match | null, truth: number): Verdict {
  if (match === null || match.kind === 'unknown') return match?.reason === 'could-be-several' ? 'asks' : 'refused';
  const isSure = match.certainty >= surelyMatched;
  if (match.course === truth) return isSure ? 'right' : 'right, in doubt';
  return isSure ? 'wrong' : 'wrong, in doubt';
}

/** An empty count. `truth` −1: no course of the instrument; in doubt = believed only when it is plucked again; a match of null = not heard. */
export function emptyTallies() {
  const tallies = new Map<string, Map<Verdict, number>>();
  /** Plucked course × answer of instruments with four courses, by the player's numbers; the last two columns are "asks" and "refused". */
  const confusions = new Map<string, number[][]>();
  return {
    add: (kind: string, truth: number, match: Match | null, courses: number) => {
      const tally = tallies.get(kind) ?? new Map<Verdict, number>();
      const verdict = verdictOf(match, truth);
      tally.set(verdict, (tally.get(verdict) ?? 0) + 1);
      tallies.set(kind, tally);
      if (courses !== 4 || truth < 0) return;
      const table = confusions.get(kind) ?? Array.from({ length: 4 }, () => [0, 0, 0, 0, 0, 0]);
      const isSaid = match?.kind === 'match' && verdict !== 'wrong, in doubt' && verdict !== 'right, in doubt';
      const column = isSaid ? match.course : verdict === 'refused' ? 5 : 4;
      const row = table[truth];
      if (row !== undefined) row[column] = (row[column] ?? 0) + 1;
      confusions.set(kind, table);
    },
    print: (title: string, confusionsOf: readonly string[] = [...confusions.keys()]) => {
      print(
        title,
        ['', 'count', ...verdicts],
        [...tallies].map(([kind, tally]) => {
          const all = [...tally.values()].reduce((sum, count) => sum + count, 0);
          return [kind, `${all}`, ...verdicts.map((verdict) => percent(tally.get(verdict) ?? 0, all))];
        }),
      );
      for (const [kind, table] of [...confusions].filter(([one]) => confusionsOf.includes(one)))
        print(
          `Plucked (down) and answered (across; in doubt counts as asks): ${kind}`,
          ['', 'course 4', 'course 3', 'course 2', 'course 1', 'asks', 'refused'],
          table.map((row, place) => [`course ${4 - place}`, ...row.map(String)]),
        );
    },
  };
}
