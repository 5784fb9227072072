// A process that appends readings one by one and prints the number of each as soon as it is acknowledged, until it is killed.
//   node tests/support/writer.ts FOLDER FIRST

import { addReadings, openLibrary } from '../../src-main/library/index.ts';
import { evening, reading } from './wren.ts';

const [folder = '', first = '0'] = process.argv.slice(2);
const library = await openLibrary(folder, () => evening);
for (let number = Number(first); ; number += 1) {
  const row = { ...reading, id: `reading-${number}`, retuneId: null, at: evening + number };
  await library.rows.transaction().execute((rows) => addReadings(rows, [row], 'player'));
  process.stdout.write(`${number}\n`);
}
