import { type Handlers, libraryParts, type Push } from '#shared/contract/index.ts';
import { type Library, listSongs, listTunings } from '../library/index.ts';
import { loadDemo, removeDemo } from './demo.ts';
import { exportLibrary, importLibrary, previewImport, undoImport } from './exchange.ts';
import { readStringSets, removeInstrument, restoreInstrument, saveInstrument } from './instruments.ts';
import { type HostFacts, readLibraryStatus } from './library-status.ts';
import { appendToLog, beginRetune, finishRetune, readCsv, readLog, readSummary } from './log.ts';
import { readOverview } from './overview.ts';
import { changeString, readRemarks } from './remarks.ts';
import { readSettings, saveSettings } from './settings.ts';
import { removeTuning, restoreTuning, saveTuning } from './tunings.ts';
import { readVerdicts } from './verdicts.ts';

type Part = Push<'changed'>['parts'][number];

/** What the handlers stand on. `clock` gives epoch milliseconds; `changed` tells every page which parts to ask for again. */
export type Ground = {
  readonly library: Library;
  readonly facts: HostFacts;
  readonly demoFile: string;
  readonly clock: () => number;
  readonly changed: (parts: readonly Part[]) => void;
  /** Brings the window before the player, where the host has one. */
  readonly raise: () => void;
};

const nothing = {};
/** The parts that a library file can change. */
const imported = ['instruments', 'tunings', 'songs', 'log'] as const;

/** The contract's handlers over an open library. */
export function makeHandlers({ library, facts, demoFile, clock, changed, raise }: Ground): Handlers {
  /** Waits for a piece of work, then says what it changed. */
  const changing = async <Result>(work: Promise<Result>, ...parts: readonly Part[]): Promise<Result> => {
    const result = await work;
    changed(parts);
    return result;
  };
  const silently = async (work: Promise<void>, ...parts: readonly Part[]): Promise<Record<string, never>> => {
    await changing(work, ...parts);
    return nothing;
  };
  return {
    'library.status': () => readLibraryStatus(library, facts),
    'library.restoreBackup': () => silently(library.restoreBackup(), ...libraryParts),
    'library.export': (input) => exportLibrary(library, input),
    'library.previewImport': (input) => previewImport(library, input, clock()),
    'library.import': (input) => changing(importLibrary(library, input, clock()), ...imported),
    'library.undoImport': (input) => silently(undoImport(library, input, clock()), ...imported),
    'overview.read': () => readOverview(library),
    'instruments.save': (input) => changing(saveInstrument(library, input), 'instruments'),
    'instruments.remove': (input) => silently(removeInstrument(library, input, clock()), 'instruments'),
    'instruments.restore': (input) => silently(restoreInstrument(library, input), 'instruments'),
    'instruments.stringSets': (input) => readStringSets(library, input),
    'tunings.list': () => listTunings(library.rows),
    'tunings.save': (input) => changing(saveTuning(library, input), 'tunings'),
    'tunings.remove': (input) => silently(removeTuning(library, input, clock()), 'tunings'),
    'tunings.restore': (input) => silently(restoreTuning(library, input), 'tunings'),
    'songs.list': () => listSongs(library.rows),
    'log.read': (input) => readLog(library, input),
    'log.beginRetune': (input) => silently(beginRetune(library, input), 'log'),
    'log.finishRetune': (input) => silently(finishRetune(library, input), 'log', 'instruments'),
    'log.append': (input) =>
      silently(appendToLog(library, input), 'log', ...(input.changeCorrections.length > 0 ? (['instruments'] as const) : [])),
    'log.changeString': (input) => silently(changeString(library, input), 'log', 'instruments'),
    'log.remarks': (input) => readRemarks(library, input),
    'log.summary': (input) => readSummary(library, input),
    'log.csv': (input) => readCsv(library, input),
    'verdicts.read': (input) => readVerdicts(library, input, clock(), facts.version),
    'settings.read': () => readSettings(library),
    'settings.save': (input) => changing(saveSettings(library, input), 'settings'),
    'demo.load': () => silently(loadDemo(library, demoFile, clock()), ...libraryParts),
    'demo.remove': () => silently(removeDemo(library), ...libraryParts),
    'window.raise': () => {
      raise();
      return nothing;
    },
  };
}
