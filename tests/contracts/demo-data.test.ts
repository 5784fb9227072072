import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { readLibraryFile, type LibraryFile } from '#shared/exchange/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import { carry, wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';

const folder = new URL('../../demo-data/', import.meta.url).pathname;
const text = readFileSync(join(folder, 'library.json'), 'utf8');

const read = readLibraryFile(text);
if ('sentence' in read) throw new Error(read.sentence);
const library: LibraryFile = read.file;

const byId = <Row extends { id: string }>(rows: readonly Row[]): ReadonlyMap<string, Row> => new Map(rows.map((row) => [row.id, row]));
const instruments = byId(library.instruments);
const stringSets = byId(library.stringSets);
const tunings = byId(library.tunings);
const retunes = byId(library.retunes);

/** The last retune of an instrument, what was heard of a course after one, and by how much that fell from one reading to the next at most. */
const last = (instrumentId: string) => library.retunes.findLast((retune) => retune.instrumentId === instrumentId)!;
const heard = (retuneId: string, course: number) =>
  library.readings.filter((reading) => reading.retuneId === retuneId && reading.course === course);
const largestFall = (retuneId: string, course: number) => {
  const cents = heard(retuneId, course).map(({ deviationCents }) => deviationCents);
  return Math.min(...cents.slice(1).map((value, index) => value - cents[index]!));
};

/** Whether numbers never rise from one to the next. */
const falls = (times: readonly number[]) => times.every((at, index) => index === 0 || at <= times[index - 1]!);

describe('the library of the demo', () => {
  test('names every row once, and so that it can be told from the player’s own', () => {
    const { instruments, stringSets, tunings, songs, retunes, turns, readings } = library;
    for (const rows of [instruments, stringSets, tunings, songs, retunes, turns, readings] as { id: string }[][]) {
      expect(rows.length).toBeGreaterThan(0);
      expect(byId(rows).size).toBe(rows.length);
      expect(rows.filter(({ id }) => !id.startsWith('demo-'))).toEqual([]);
    }
  });

  test('refers only to rows that it holds', () => {
    for (const { stringSetId, tuningId, id } of library.instruments) {
      expect(stringSets.get(stringSetId)?.instrumentId).toBe(id);
      expect(tunings.has(tuningId!)).toBe(true);
    }
    for (const { instrumentId } of library.stringSets) expect(instruments.has(instrumentId)).toBe(true);
    for (const { tuningId, instrumentId } of library.songs) expect(tunings.has(tuningId!) && instruments.has(instrumentId!)).toBe(true);
    for (const { stringSetId, instrumentId, fromTuningId, toTuningId } of library.retunes) {
      expect(stringSets.get(stringSetId)?.instrumentId).toBe(instrumentId);
      expect(tunings.has(fromTuningId!) && tunings.has(toTuningId!)).toBe(true);
    }
    for (const { retuneId } of library.turns) expect(retunes.has(retuneId)).toBe(true);
    for (const { retuneId, stringSetId } of library.readings) expect(retunes.get(retuneId!)?.stringSetId).toBe(stringSetId);
  });

  test('has no tuning that goes onto none of the instruments', () => {
    const homes = library.instruments.map(({ stringSetId }) => homePitches(stringSets.get(stringSetId)!));
    const homeless = library.tunings.filter((tuning) => homes.every((home) => carry(tuning, home) === null));
    expect(library.tunings.length).toBeGreaterThanOrEqual(20);
    expect(homeless).toEqual([]);
  });

  test('leaves each instrument in the tuning of its last retune', () => {
    for (const { id, tuningId } of library.instruments)
      expect(library.retunes.findLast(({ instrumentId }) => instrumentId === id)?.toTuningId).toBe(tuningId);
  });

  test('counts time back from the moment of loading, the oldest row first, and nothing on strings before they were fitted', () => {
    expect(library.relativeTimes).toBe(true);
    expect(falls(library.retunes.map(({ startedAt }) => startedAt))).toBe(true);
    expect(falls(library.turns.map(({ at }) => at))).toBe(true);
    expect(falls(library.readings.map(({ at }) => at))).toBe(true);
    expect(library.readings.at(-1)!.at).toBeGreaterThan(0);
    for (const { startedAt, finishedAt, stringSetId } of library.retunes) {
      expect(finishedAt).toBeLessThanOrEqual(startedAt);
      expect(startedAt).toBeLessThan(stringSets.get(stringSetId)!.fittedAt);
    }
    for (const { at, retuneId } of library.readings) expect(at).toBeLessThanOrEqual(retunes.get(retuneId!)!.finishedAt!);
  });

  test('wants of every string what its tuning asks for at 440 hertz', () => {
    for (const retune of library.retunes) {
      const tuning = tunings.get(retune.toTuningId!)!;
      const { pitches } = carry(tuning, homePitches(stringSets.get(retune.stringSetId)!))!;
      for (const [course, wanted] of wantedHertz(pitches, tuning.courses, hertz(440)).flat().entries())
        expect(retune.wantedHertz[course]?.[0]).toBeCloseTo(wanted, 3);
    }
  });

  test('says of every reading how far it is from wanted', () => {
    const wrong = library.readings.filter(
      ({ hertz, wantedHertz, deviationCents }) => Math.abs(1200 * Math.log2(hertz / wantedHertz) - deviationCents) > 0.00501,
    );
    expect(wrong).toEqual([]);
    for (const { course, wantedHertz, retuneId } of library.readings)
      expect(retunes.get(retuneId!)?.wantedHertz[course]?.[0]).toBe(wantedHertz);
  });
});

describe('how the strings of the demo drift', () => {
  // The law and the rate of demo-data/creep.ts, written out again: 4.3 cents per tenfold of time for each semitone.
  test('course 1 of Moth, lowered tonight, comes back by 4.3 · log10(1 + minutes) for each semitone', () => {
    const { id } = last('demo-moth');
    const turns = library.turns.filter((turn) => turn.retuneId === id && turn.course === 3);
    const drift = (at: number) => turns.reduce((sum, turn) => sum - 4.3 * (turn.cents / 100) * Math.log10(1 + (turn.at - at) / 60_000), 0);
    const [first, ...later] = heard(id, 3);
    expect(drift(0) - drift(first!.at)).toBeGreaterThan(7);
    expect(later.length).toBeGreaterThanOrEqual(5);
    for (const reading of later) {
      const moved = reading.deviationCents - first!.deviationCents;
      const sigma = Math.hypot(reading.sigmaCents, first!.sigmaCents);
      expect(Math.abs(moved - (drift(reading.at) - drift(first!.at)))).toBeLessThan(3.5 * sigma);
    }
  });

  test('course 2 of Rook gives way by steps after each of its last three retunes, and the others do not', () => {
    for (const { id } of library.retunes.filter(({ instrumentId }) => instrumentId === 'demo-rook').slice(-3)) {
      expect(largestFall(id, 4)).toBeLessThan(-4);
      for (const course of [0, 1, 2, 3, 5]) expect(largestFall(id, course)).toBeGreaterThan(-4);
    }
  });

  test('Sedge has not been heard since it was taken home nine days ago', () => {
    const { id, startedAt } = last('demo-sedge');
    expect(Math.round(startedAt / 86_400_000)).toBe(9);
    expect(library.readings.some(({ retuneId }) => retuneId === id)).toBe(false);
  });
});

describe('the files of the demo', () => {
  const again = mkdtempSync(join(tmpdir(), 'stillstring-demo-'));
  afterAll(() => rmSync(again, { recursive: true }));
  const made = ['library.json', ...readdirSync(join(folder, 'recordings')).map((name) => join('recordings', name))];

  test('come out the same to the byte when they are made again', () => {
    execFileSync(process.execPath, [join(folder, 'make.ts'), again]);
    expect(readdirSync(join(again, 'recordings')).length).toBe(made.length - 1);
    const other = made.filter((name) => !readFileSync(join(folder, name)).equals(readFileSync(join(again, name))));
    expect(other).toEqual([]);
  });

  test('take less than 3 MB together, scripts included', () => {
    const scripts = readdirSync(folder).filter((name) => name.endsWith('.ts'));
    const bytes = [...made, ...scripts].reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);
    expect(bytes).toBeLessThan(3_000_000);
  });
});
