import type { Import } from './imports.ts';
import { type Rule, ruleFor } from './table.ts';

/** What breaks the table, as a sentence a line. */
export const breaches = (imports: readonly Import[], rules: readonly Rule[]): readonly string[] =>
  imports.flatMap((one) => breach(one, rules) ?? []);

function breach({ file, target, isProject, isTypeOnly }: Import, rules: readonly Rule[]): string | null {
  const rule = ruleFor(rules, file);
  if (rule === undefined) return `${file} lies in no room of the table`;
  if (rule.rooms.includes('anything')) return null;
  if (!isProject)
    return mayUse(rule, target)
      ? null
      : `${file} imports the package ${target}; ${rule.room} may use ${rule.packages.join(', ') || 'none'}`;
  if (/\.css$|\.module\.css$/u.test(target)) return null;
  const other = ruleFor(rules, target);
  if (other === undefined) return `${file} imports ${target}, which lies in no room of the table`;
  if (other.room === rule.room) return null;
  const isAllowed = rule.rooms.includes(other.room) || (rule.rooms.includes('all') && other.room.startsWith('src-shared/'));
  if (!isAllowed) return `${file} imports ${target}; ${rule.room} may import ${rule.rooms.join(', ') || 'nothing'}`;
  if (rule.typesOnly.includes(other.room) && !isTypeOnly)
    return `${file} imports ${target} at run time; ${rule.room} may import only its types`;
  return isDoor(target) ? null : `${file} reaches into ${target}; a room is entered through its index.ts`;
}

/** Rooms of src-shared are entered by their index.ts, sub-rooms by theirs; the preload and the names of the contract are the one exception. */
const isDoor = (target: string): boolean =>
  !target.startsWith('src-shared/') || /\/index\.ts$|^src-shared\/contract\/names\.ts$/u.test(target);

const mayUse = (rule: Rule, target: string): boolean =>
  rule.packages.some((name) => (name === 'node' ? target.startsWith('node:') : target === name || target.startsWith(`${name}/`))) ||
  (rule.room === 'src-renderer/ui' && target.startsWith('@fontsource'));
