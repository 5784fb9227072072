import { quantile } from 'simple-statistics';

/** "0.8 / 2.9": median and 90th percentile of the sizes. */
export const sizes = (errors: readonly number[]): string => {
  const absolute = errors.map(Math.abs);
  return errors.length === 0 ? '–' : `${quantile(absolute, 0.5).toFixed(1)} / ${quantile(absolute, 0.9).toFixed(1)}`;
};

/** The 90th percentile of the sizes. */
export const ninetieth = (errors: readonly number[]): number => (errors.length === 0 ? Number.NaN : quantile(errors.map(Math.abs), 0.9));

/** "87 %": the share of trues. */
export const share = (hits: readonly boolean[]): string =>
  hits.length === 0 ? '–' : `${((100 * hits.filter(Boolean).length) / hits.length).toFixed(1)} %`;

/** Prints a table with a heading. */
export function print(title: string, head: readonly string[], rows: readonly (readonly string[])[]): void {
  const widths = head.map((cell, column) => Math.max(cell.length, ...rows.map((row) => row[column]?.length ?? 0)));
  const line = (cells: readonly string[]) => `  ${cells.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('   ')}`;
  console.log(`\n${title}`);
  console.log(line(head));
  console.log(line(widths.map((width) => '-'.repeat(width))));
  for (const row of rows) console.log(line(row));
}
