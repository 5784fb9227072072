import Papa from 'papaparse';
import type { Reading } from '#shared/log/index.ts';

/** A reading with the names that a spreadsheet needs instead of ids. `time` is its moment in ISO 8601, UTC; `courseNumber` the player's. */
export type NamedReading = Pick<Reading, 'hertz' | 'wantedHertz' | 'deviationCents' | 'sigmaCents' | 'source'> & {
  readonly time: string;
  readonly instrument: string;
  readonly strings: string;
  readonly courseNumber: number;
  readonly stringNumber: number;
};

const columns = [
  'time (UTC)',
  'instrument',
  'strings',
  'course',
  'string',
  'heard (Hz)',
  'wanted (Hz)',
  'off (cents)',
  'uncertainty (cents)',
  'source',
] as const;

const row = (reading: NamedReading): readonly (string | number)[] => [
  reading.time,
  reading.instrument,
  reading.strings,
  reading.courseNumber,
  reading.stringNumber,
  Number(reading.hertz.toFixed(4)),
  Number(reading.wantedHertz.toFixed(4)),
  Number(reading.deviationCents.toFixed(2)),
  Number(reading.sigmaCents.toFixed(2)),
  reading.source,
];

/**
 * Readings as CSV (RFC 4180: commas, CR LF); the line of column names comes first where `isFirst`. A name that a spreadsheet would take for a
 * formula gets an apostrophe before it, as OWASP advises against CSV injection.
 */
export function readingsCsv(readings: readonly NamedReading[], isFirst: boolean): string {
  const lines = [...(isFirst ? [columns] : []), ...readings.map(row)].map((line) => [...line]);
  return lines.length === 0 ? '' : `${Papa.unparse(lines, { escapeFormulae: true, newline: '\r\n' })}\r\n`;
}
