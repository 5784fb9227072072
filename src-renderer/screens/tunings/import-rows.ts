import type { ImportPreview } from '#shared/contract/index.ts';
import type { MergeChoice, MergeDecision, MergePart } from '#shared/exchange/index.ts';
import { count, listed } from '../../ui/words.ts';

type Row = ImportPreview['rows'][number];

const partWords: Readonly<Record<MergePart, string>> = { instruments: 'instrument', tunings: 'tuning', songs: 'song' };

/** What a row is, in a word: `tuning`. */
export const partWord = (part: MergePart): string => partWords[part];

const choiceWords: Readonly<Record<MergeChoice, string>> = {
  add: 'add it',
  'keep-both': 'keep both',
  replace: 'replace the one here',
  leave: 'leave it out',
};

/** The choices of a row with their words. */
export const choiceOptions = ({ choices }: Row): readonly { readonly value: MergeChoice; readonly words: string }[] =>
  choices.map((value) => ({ value, words: choiceWords[value] }));

const counted = (rows: readonly Row[]): string =>
  listed(
    (['instruments', 'tunings', 'songs'] as const).flatMap((part) => {
      const number = rows.filter((row) => row.part === part).length;
      return number === 0 ? [] : [count(number, partWords[part])];
    }),
  );

/** What a file has for this library, in a sentence or two. */
export function importWords({ rows, readings }: ImportPreview): string {
  const [come, differ, same] = (['new', 'differs', 'same'] as const).map((standing) => rows.filter((row) => row.standing === standing));
  const parts = [
    come === undefined || come.length === 0 ? null : `New: ${counted(come)}.`,
    differ === undefined || differ.length === 0 ? null : `Here already, but different: ${counted(differ)}.`,
    same === undefined || same.length === 0 ? null : `Here already, just the same: ${counted(same)}.`,
    readings === 0 ? null : `The file brings ${count(readings, 'reading')}; those that the log has already are not doubled.`,
  ].filter((words) => words !== null);
  return parts.length === 0 ? 'There is nothing in this file.' : parts.join(' ');
}

/** The rows that ask for a choice, those that differ first. */
export const askingRows = ({ rows }: ImportPreview): readonly Row[] => [
  ...rows.filter(({ standing }) => standing === 'differs'),
  ...rows.filter(({ standing }) => standing === 'new'),
];

/** A row's name among all rows. */
export const rowKey = ({ part, id }: Pick<Row, 'part' | 'id'>): string => `${part} ${id}`;

/** The decisions to send: only where the player chose otherwise than what loses nothing. */
export const decisionsOf = (rows: readonly Row[], chosen: ReadonlyMap<string, MergeChoice>): MergeDecision[] =>
  rows.flatMap((row) => {
    const choice = chosen.get(rowKey(row));
    return choice === undefined || choice === row.choices[0] ? [] : [{ part: row.part, id: row.id, choice }];
  });
