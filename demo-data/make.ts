// Makes the demo: a library of an invented player, and recordings of her instruments whose pitches are known.
// The same bytes every time. `npm run demo-data` writes beside this file; a folder as argument writes there instead.
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { writeWav } from '#shared/recording/index.ts';
import { demoLibrary, libraryText } from './library.ts';
import { demoRecordings } from './recordings.ts';

const folder = process.argv[2] ?? dirname(fileURLToPath(import.meta.url));
const recordingsFolder = join(folder, 'recordings');
const sampleRateHertz = 16_000;

mkdirSync(recordingsFolder, { recursive: true });
const recordings = demoRecordings(sampleRateHertz);
for (const { file, samples } of recordings)
  writeFileSync(join(recordingsFolder, file), writeWav({ sampleRateHertz, channels: [samples] }, 'pcm16'));
const truth = recordings.map(({ samples, ...known }) => ({ ...known, seconds: samples.length / sampleRateHertz }));
writeFileSync(join(recordingsFolder, 'truth.json'), `${JSON.stringify({ sampleRateHertz, recordings: truth }, null, 1)}\n`);

writeFileSync(join(folder, 'library.json'), libraryText(demoLibrary()));
