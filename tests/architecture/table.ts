import { readFileSync } from 'node:fs';

/** What a room may import, as DEVELOPERS.md has it. */
export type Rule = {
  readonly room: string;
  readonly rooms: readonly string[];
  readonly typesOnly: readonly string[];
  readonly packages: readonly string[];
};

/** Reads the import table. Throws where the table is not there. */
export function readTable(file: URL): readonly Rule[] {
  const lines = readFileSync(file, 'utf8').split('\n');
  const head = lines.indexOf('| room | may import | packages |');
  if (head === -1) throw new Error('DEVELOPERS.md has no import table');
  const rows = lines.slice(head + 2);
  return rows
    .slice(
      0,
      rows.findIndex((line) => !line.startsWith('|')),
    )
    .map(ruleOf);
}

function ruleOf(line: string): Rule {
  const [room = '', rooms = '', packages = ''] = line
    .slice(1, -1)
    .split('|')
    .map((cell) => cell.trim());
  const names = list(rooms);
  const typesOnly = names.filter((name) => name.endsWith(' (types)')).map((name) => path(name.replace(' (types)', '')));
  return { room, rooms: names.map((name) => path(name.replace(' (types)', ''))), typesOnly, packages: list(packages) };
}

const list = (cell: string): readonly string[] => (cell === '–' ? [] : cell.split(',').map((name) => name.trim()));
const path = (name: string): string => (name === 'all' || name === 'anything' || name.startsWith('src-') ? name : `src-shared/${name}`);

/** The rule for a file: that of the deepest room that it lies in. */
export const ruleFor = (rules: readonly Rule[], file: string): Rule | undefined =>
  rules.filter(({ room }) => file.startsWith(`${room}/`) || file.startsWith(`${room}.`)).sort((a, b) => b.room.length - a.room.length)[0];
