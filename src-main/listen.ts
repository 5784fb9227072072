// Listen: a recording in, per course what was reached and how it will settle; no window.
// Knows: the command line and exit codes. Must not know: pitch, courses, verdicts – listen/run.ts takes the recording all the way.

import { readFile } from 'node:fs/promises';
import { writtenPitch } from '#shared/music/index.ts';
import { readWav, type Recording } from '#shared/recording/index.ts';
import { type Question, readArguments, usage, UsageError } from './listen/arguments.ts';
import { type CourseReport, type Report, run } from './listen/run.ts';

/** What the command's exit code says. */
const exits = { allThere: 0, someOff: 1, wrongWords: 2, noRecording: 3, nothingHeard: 4 } as const;

async function main(words: readonly string[]): Promise<number> {
  let question: Question;
  try {
    question = readArguments(words);
  } catch (fault) {
    if (!(fault instanceof UsageError)) throw fault;
    console.error(`${fault.message}\n\n${usage}`);
    return exits.wrongWords;
  }
  const recording = await open(question.file);
  if (typeof recording === 'string') {
    console.error(recording);
    return exits.noRecording;
  }
  const report = run(question, recording);
  if (report.frames === 0) {
    console.error(`No string is to be heard in ${question.file} (${report.seconds.toFixed(1)} s).`);
    return exits.nothingHeard;
  }
  console.log(question.asJson ? JSON.stringify(report, null, 2) : table(report));
  const isThere = ({ deviationCents }: CourseReport): boolean =>
    deviationCents !== null && Math.abs(deviationCents) <= question.toleranceCents;
  return report.courses.every(isThere) ? exits.allThere : exits.someOff;
}

async function open(file: string): Promise<Recording | string> {
  const bytes = await readFile(file).catch((fault: NodeJS.ErrnoException) => fault);
  if (bytes instanceof Error) return bytes.code === 'ENOENT' ? `There is no file ${file}.` : `${file} cannot be read: ${bytes.message}`;
  const recording = readWav(bytes);
  return 'failure' in recording ? `${file}: ${recording.failure.sentence}` : recording;
}

const signed = (cents: number): string => `${cents < 0 ? '−' : '+'}${Math.abs(cents).toFixed(2)}`;

function table({ courses }: Report): string {
  const rows = courses.map(({ courseNumber, from, to, deviationCents, sigmaCents, verdict, why }) => [
    String(courseNumber),
    writtenPitch(from),
    writtenPitch(to),
    deviationCents === null || sigmaCents === null ? 'not heard' : `${signed(deviationCents)} c ±${(2 * sigmaCents).toFixed(2)}`,
    verdict,
    why,
  ]);
  const all = [['course', 'from', 'to', 'from wanted (±2σ)', 'verdict', 'why'], ...rows];
  const widths = all[0]?.map((_, column) => Math.max(...all.map((row) => row[column]?.length ?? 0))) ?? [];
  return all
    .map((row) =>
      row
        .map((cell, column) => cell.padEnd(widths[column] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

process.exitCode = await main(process.argv.slice(2));
