import { boundCents } from './bound.ts';
import type { Clip } from './clip.ts';
import { naiveReaders, ours, oursWithoutHint, type Reader } from './readers.ts';
import { addTo, emptyScore, gross, quantile, scoreOf, within, type Score } from './score.ts';

export const percent = (share: number) => (Number.isFinite(share) ? `${(100 * share).toFixed(1)} %` : '–');
export const row = (cells: readonly string[]) => console.log(`| ${cells.join(' | ')} |`);
export const head = (cells: readonly string[]) => {
  row(cells);
  row(cells.map(() => '---'));
};

const cents = (value: number) => (Number.isFinite(value) ? value.toFixed(value < 10 ? 3 : 0) : '–');
const middleAndWorst = ({ errors }: Score) => `${cents(quantile(errors, 0.5))} / ${cents(quantile(errors, 0.95))}`;
const inSigmas = ({ ratios }: Score) =>
  [1, 2].map((limit) => percent(ratios.filter((ratio) => ratio <= limit).length / ratios.length)).join(' / ');
const naiveCell = (score: Score) => `${middleAndWorst(score)}, ${percent(within(score, 3))}`;
const fourShares = (score: Score) => [within(score, 3), within(score, 1), gross(score), score.missed / score.ticks].map(percent).join(', ');

export type Options = { readonly naive: boolean; readonly hint: boolean; readonly worst: boolean };

/** Prints the class table row by row, and keeps the sums over all classes. */
export const createTable = ({ naive, hint, worst }: Options) => {
  const others = naive ? Object.entries(naiveReaders) : [];
  const sums = new Map<string, Score>();
  const sumOfAll = (name: string) => {
    const sum = sums.get(name) ?? emptyScore();
    sums.set(name, sum);
    return sum;
  };
  const score = (name: string, clips: readonly Clip[], reader: (clip: Clip) => Reader) => {
    const sum = emptyScore();
    for (const [index, clip] of clips.entries()) {
      const one = scoreOf(clip, reader(clip));
      addTo(sum, one);
      if (worst && name === 'ours' && within(one, 3) < 0.95)
        console.log(`  clip ${index}, ${clip.truthHertz(1).toFixed(2)} Hz: ${naiveCell(one)}, missed ${percent(one.missed / one.ticks)}`);
    }
    addTo(sumOfAll(name), sum);
    return sum;
  };
  const sides = ['before pluck', 'in 1σ / 2σ'];
  const naiveHeads = others.map(([name]) => `${name}: median / 95th c, within 3 c`);
  return {
    head: () =>
      head(['class', 'median / 95th c', 'within 3 c', 'within 1 c', 'gross', 'missed', ...sides, ...naiveHeads, 'goal', 'bound: σ c']),
    add: (name: string, clips: readonly Clip[], goal: string) => {
      const own = score('ours', clips, hint ? ours : oursWithoutHint);
      const bounds = clips.map(boundCents).filter((bound) => bound !== null);
      row([
        name,
        middleAndWorst(own),
        percent(within(own, 3)),
        percent(within(own, 1)),
        percent(gross(own)),
        percent(own.missed / own.ticks),
        percent(own.shownBefore / own.ticksBefore),
        inSigmas(own),
        ...others.map(([other, reader]) => naiveCell(score(other, clips, reader))),
        goal,
        bounds.length === 0 ? '–' : quantile(bounds, 0.5).toFixed(4),
      ]);
    },
    /** The last row: shares within 3 c, within 1 c, gross and missed, over all moments of all classes. */
    all: (goal: string) => {
      const own = sumOfAll('ours');
      row([
        'all classes: within 3 c, within 1 c, gross, missed',
        middleAndWorst(own),
        percent(within(own, 3)),
        percent(within(own, 1)),
        percent(gross(own)),
        percent(own.missed / own.ticks),
        percent(own.shownBefore / own.ticksBefore),
        inSigmas(own),
        ...others.map(([other]) => fourShares(sumOfAll(other))),
        goal,
        '–',
      ]);
    },
  };
};

/** Prints how long after the pluck the shown value stays within 3 cents: one row a string. */
export const settlingTable = (named: Record<string, { clips: readonly Clip[]; goal: string }>, { naive }: Options) => {
  const readers: [string, (clip: Clip) => Reader][] = [['ours', ours], ...(naive ? Object.entries(naiveReaders) : [])];
  head(['string', ...readers.map(([name]) => `${name}: ms, median / 90th`), 'goal']);
  for (const [name, { clips, goal }] of Object.entries(named)) {
    const times = readers.map(([, reader]) => {
      const seconds = clips.flatMap((clip) => scoreOf(clip, reader(clip)).settleSeconds);
      return [0.5, 0.9].map((share) => (1000 * quantile(seconds, share)).toFixed(0).replace('Infinity', 'never')).join(' / ');
    });
    row([name, ...times, goal]);
  }
};
