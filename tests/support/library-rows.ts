import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';

/** Every row of every table of a library file, as SQLite has it. The library must not be open. */
export function everyRow(folder: string): Readonly<Record<string, readonly unknown[]>> {
  const file = new DatabaseSync(join(folder, 'library.sqlite'), { readOnly: true });
  try {
    const tables = file.prepare(`SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name`).all();
    return Object.fromEntries(
      tables.map(({ name }) => [String(name), file.prepare(`SELECT * FROM "${String(name)}" ORDER BY 1, 2`).all()]),
    );
  } finally {
    file.close();
  }
}
