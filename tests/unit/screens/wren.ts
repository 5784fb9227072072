import type { Overview } from '#shared/contract/index.ts';
import { presetById, stringSetFromPreset } from '#shared/instruments/index.ts';
import type { Reading } from '#shared/log/index.ts';
import { parsePitches } from '#shared/music/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';

/** An instrument as its preset has it, at home, never heard. */
export function instrumentOf(presetId: string, name: string): Overview {
  const preset = presetById(presetId);
  if (preset === null) throw new RangeError(`no preset ${presetId}`);
  const id = name.toLowerCase();
  return {
    instrument: {
      id,
      name,
      presetId,
      kind: preset.kind,
      scaleLengthMillimetres: preset.scaleLengthMillimetres,
      frets: preset.frets,
      leftHanded: false,
      upsideDown: false,
      pegs: null,
      bridge: null,
      pegsHavePlay: false,
      inputLabel: null,
      inputChannel: 0,
      stringSetId: `${id}-set`,
      tuningId: null,
    },
    stringSet: stringSetFromPreset(preset, { id: `${id}-set`, instrumentId: id, name: 'First set', fittedAt: 0 }),
    lastRetune: null,
    lastReadings: [],
    turnedSinceHeard: [],
  };
}

export { settings } from '../../support/wren.ts';

/** A tuning of single strings, written for a home. */
export function tuningOf(name: string, pitches: string, home: string, more: Partial<Tuning> = {}): Tuning {
  const [wanted, writtenFor] = [parsePitches(pitches), parsePitches(home)];
  if ('notAPitch' in wanted || 'notAPitch' in writtenFor) throw new RangeError(`no pitches: ${pitches} / ${home}`);
  return {
    id: name.toLowerCase(),
    name,
    courses: wanted.map((pitch) => ({ pitches: [pitch], offsetCents: 0 })),
    home: writtenFor.map((pitch) => [pitch]),
    favourite: false,
    tags: [],
    notes: '',
    ...more,
  };
}

/** A reading of one course of an instrument of single strings. */
export const readingOf = (course: number, hertz: number, wantedHertz: number, at: number): Reading => ({
  id: `reading ${course} ${at}`,
  stringSetId: 'wren-set',
  retuneId: null,
  at,
  course,
  string: 0,
  hertz,
  wantedHertz,
  deviationCents: 1200 * Math.log2(hertz / wantedHertz),
  sigmaCents: 0.3,
  source: 'pluck',
});
