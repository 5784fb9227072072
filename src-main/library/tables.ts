import type { Settings } from '#shared/contract/index.ts';
import type { Instrument, StringSet } from '#shared/instruments/index.ts';
import type { ChangeCorrection, Correction, Note, Reading, Retune, Snooze, StringChange, Turn, WarningSeen } from '#shared/log/index.ts';
import type { Song } from '#shared/sets/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';

/** Who put a row there: the player, or the demo library, whose rows can be taken out again. */
export type Origin = 'player' | 'demo';

type Owned = { origin: Origin };
type Removable = { removedAt: number | null };

/** A data type as a row: `Lists` are kept as JSON text, `Flags` as 0 or 1. */
type Row<Data, Lists extends keyof Data, Flags extends keyof Data> = Omit<Data, Lists | Flags> &
  Record<Lists, string> &
  Record<Flags, number>;

/** The tables, as the newest migration leaves them. Columns carry the names of the data types. */
export type Tables = {
  instruments: Row<Instrument, never, 'leftHanded' | 'upsideDown' | 'pegsHavePlay'> & Owned & Removable;
  stringSets: Row<StringSet, 'courses', never> & Owned;
  tunings: Row<Tuning, 'courses' | 'home' | 'tags', 'favourite'> & Owned & Removable;
  songs: Song & Owned;
  retunes: Omit<Retune, 'wantedHertz'> & Owned;
  retuneStrings: { retuneId: string; course: number; string: number; wantedHertz: number };
  turns: Turn & Owned;
  readings: Reading & Owned;
  notes: Note & Owned;
  /** `replaced` is the string that was taken off, as JSON; null where that was not noted. */
  stringChanges: Row<StringChange, never, 'wound'> & { replaced: string | null } & Owned;
  warningsSeen: WarningSeen & Owned;
  snoozes: Snooze & Owned;
  corrections: Row<Correction, never, 'isWrong'> & Owned;
  changeCorrections: Row<ChangeCorrection, never, 'isWrong'> & Owned;
  /** Kept for speed; `strings` is JSON. */
  judgements: { stringSetId: string; facts: string; judgedAt: number; touchedAt: number; strings: string };
  settings: Row<Settings, never, 'soundCues' | 'speaks'> & { id: number };
};
