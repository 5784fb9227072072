import type { Settings } from '#shared/contract/index.ts';
import type { Instrument, StringSet } from '#shared/instruments/index.ts';
import type { Reading, Retune, Turn } from '#shared/log/index.ts';
import { parsePitches, type SpelledPitch } from '#shared/music/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';

/** 25 November 2026, 20:00 UTC: the moment at which these tests play. */
export const evening = Date.UTC(2026, 10, 25, 20);

const pitches = (text: string): SpelledPitch[] => {
  const parsed = parsePitches(text);
  if ('notAPitch' in parsed) throw new RangeError(`not a pitch: ${parsed.notAPitch}`);
  return [...parsed];
};

export const stringSet: StringSet = {
  id: 'wren-strings',
  instrumentId: 'wren',
  name: 'First set',
  fittedAt: evening - 86_400_000,
  courses: pitches('G4 C4 E4 A4').map((home) => ({
    strings: [{ material: 'fluorocarbon', wound: false, diameterMillimetres: 0.62, linearDensityKilogramsPerMetre: null }],
    home: [home],
  })),
};

export const instrument: Instrument = {
  id: 'wren',
  name: 'Wren',
  presetId: 'tenor',
  kind: 'tenor ukulele',
  scaleLengthMillimetres: 432,
  frets: 18,
  leftHanded: false,
  upsideDown: false,
  pegs: 'friction',
  bridge: null,
  pegsHavePlay: true,
  inputLabel: null,
  inputChannel: 0,
  stringSetId: 'wren-strings',
  tuningId: null,
};

export const tuning: Tuning = {
  id: 'three-down',
  name: '3 down a semitone',
  courses: pitches('G4 B3 E4 A4').map((pitch) => ({ pitches: [pitch], offsetCents: 0 })),
  home: pitches('G4 C4 E4 A4').map((pitch) => [pitch]),
  favourite: true,
  tags: ['evening'],
  notes: '',
};

export const retune: Retune = {
  id: 'retune-1',
  instrumentId: 'wren',
  stringSetId: 'wren-strings',
  fromTuningId: null,
  toTuningId: 'three-down',
  startedAt: evening,
  finishedAt: null,
  wantedHertz: [[391.995], [246.942], [329.628], [440]],
};

export const turn: Turn = { id: 'turn-1', retuneId: 'retune-1', at: evening + 5000, course: 1, string: 0, cents: -104.5 };

export const reading: Reading = {
  id: 'reading-1',
  stringSetId: 'wren-strings',
  retuneId: 'retune-1',
  at: evening + 8000,
  course: 1,
  string: 0,
  hertz: 246.8,
  wantedHertz: 246.942,
  deviationCents: -0.996,
  sigmaCents: 0.3,
  source: 'pluck',
};

/** One row of everything else that the log has. */
export const remarks = {
  notes: [{ id: 'note-1', instrumentId: 'wren', at: evening + 9000, words: 'Sounds soft by the window.', replaces: null }],
  stringChanges: [
    {
      id: 'change-1',
      stringSetId: 'wren-strings',
      at: evening - 3_600_000,
      course: 0,
      string: 0,
      material: 'nylon' as const,
      wound: false,
      diameterMillimetres: 0.7,
      words: 'The old one had a flat spot.',
    },
  ],
  warningsSeen: [{ id: 'seen-1', stringSetId: 'wren-strings', at: evening + 9000, course: 1, string: 0, kind: 'slips' as const }],
  snoozes: [{ id: 'snooze-1', stringSetId: 'wren-strings', at: evening + 9000, until: evening + 3_600_000 }],
  corrections: [{ id: 'correction-1', readingId: 'reading-1', at: evening + 9000, isWrong: true }],
  changeCorrections: [{ id: 'change-correction-1', stringChangeId: 'change-1', at: evening + 9000, isWrong: false }],
};

/** What holds until the player sets something else. */
export const settings: Settings = {
  referenceHertz: 440,
  toleranceCents: 3,
  theme: 'system',
  soundCues: true,
  microphoneLabel: null,
  noteLanguage: 'english',
  speaks: false,
};
