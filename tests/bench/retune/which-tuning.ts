// "What am I in?": instruments left in a starter tuning, each string somewhat off, all courses plucked in any order.
import { type Strings, whichTuning } from '#shared/matching/index.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import { print } from '../settling/table.ts';

interface Case {
  readonly home: Strings;
  readonly wanted: Strings;
}

const off = (heard: number, from: number): number => 1200 * Math.log2(heard / from);
const alikeCents = 70;
/** So often each case is drawn: the share of wrong answers is small. */
const draws = 4;
const at = (from: number, cents: number): number => from * 2 ** (cents / 1200);

/** Prints how often each string was taken for itself, and how often the tuning came first. */
export function nameTunings(seed: number, cases: readonly Case[]): void {
  const random = seededRandom(seed + 2);
  const byHome = new Map<string, readonly Case[]>();
  for (const one of cases) byHome.set(one.home.join(), [...(byHome.get(one.home.join()) ?? []), one]);
  const rows: string[][] = [];
  for (const [name, common, each, isLogged] of [
    ['as tuned, ±5 c', 0, 5, false],
    ['each ±30 c', 0, 30, false],
    ['all two semitones flat or sharp, ±15 c', 200, 15, false],
    ['all two semitones off, and the log knows the tuning it was in', 200, 15, true],
    ['as tuned, and the log knows the tuning', 0, 15, true],
  ] as const) {
    const counts = { 'strings right': 0, 'strings wrong': 0, asks: 0, unknown: 0, 'tuning first': 0 };
    let all = 0;
    for (const { home, wanted } of Array.from({ length: draws }, () => cases).flat()) {
      const candidates = (byHome.get(home.join()) ?? []).map((one) => ({ id: one.wanted.join(), wanted: one.wanted }));
      const shift = common * random.pick([-1, 1]);
      const truth = wanted.map((strings) => strings.map((pitch) => at(pitch, shift + random.normal(each))));
      const answer = whichTuning(
        truth.flat().toSorted(() => random.between(-1, 1)),
        candidates,
        isLogged ? wanted : null,
      );
      all += 1;
      if (answer.kind === 'unknown') counts.unknown += 1;
      else if (answer.kind === 'could-be-several') counts.asks += 1;
      else {
        // Two strings tuned alike may change places: neither is then far from where it was heard.
        const isRight = answer.present.flat().every((pitch, place) => Math.abs(off(pitch, truth.flat()[place] ?? 0)) < alikeCents);
        counts[isRight ? 'strings right' : 'strings wrong'] += 1;
        if (answer.tunings[0]?.id === wanted.join()) counts['tuning first'] += 1;
      }
    }
    rows.push([name, `${all}`, ...Object.values(counts).map((count) => `${((100 * count) / all).toFixed(2)} %`)]);
  }
  print(
    'What am I in? Every ukulele preset × starter tuning',
    ['', 'count', 'strings right', 'strings wrong', 'asks', 'unknown', 'tuning first'],
    rows,
  );
}
