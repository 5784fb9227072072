import type { Overview } from '#shared/contract/index.ts';
import {
  courseNumber,
  type Instrument,
  instrumentSchema,
  type InstrumentPreset,
  type InstrumentString,
  type StringSet,
  stringSchema,
  stringSetFromPreset,
} from '#shared/instruments/index.ts';
import type { SpelledPitch } from '#shared/music/index.ts';
import type { Material } from '#shared/units/index.ts';
import { pitchText, readPitch } from '../../ui/note-names.ts';
import { readNumber } from '../numbers.ts';

/** One string as it stands in the form: text where the player types. */
export type StringDraft = {
  readonly home: string;
  readonly material: Material;
  readonly wound: boolean;
  readonly diameterMillimetres: string;
  readonly gramsPerMetre: string;
  /** The most that the maker rates it for, in newtons. */
  readonly ratedNewtons: string;
};

/** An instrument as it stands in the form. Nothing of it is lost while it is wrong. */
export type Draft = {
  readonly name: string;
  readonly kind: string;
  readonly scaleLengthMillimetres: string;
  readonly frets: string;
  readonly leftHanded: boolean;
  readonly upsideDown: boolean;
  readonly pegs: Instrument['pegs'];
  readonly bridge: Instrument['bridge'];
  readonly pegsHavePlay: boolean;
  readonly setName: string;
  /** New strings were fitted: they get a history of their own. */
  readonly hasNewStrings: boolean;
  /** The day on which the strings were fitted, as `2026-11-25`. */
  readonly fittedOn: string;
  readonly courses: readonly (readonly StringDraft[])[];
};

/** What is wrong, a sentence a field; fields of a string are named `home 2 0` (course and string from the player's eye). */
export type Problems = Readonly<Record<string, string>>;
export type Entry = { readonly instrument: Instrument; readonly stringSet: StringSet };

const numberText = (value: number | null): string => (value === null ? '' : String(value));

const two = (number: number): string => String(number).padStart(2, '0');

/** A moment's day on the player's calendar: `2026-11-25`. */
export function dayText(epochMilliseconds: number): string {
  const day = new Date(epochMilliseconds);
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}

/** The beginning of a day written as `2026-11-25`, in epoch milliseconds; null where there is no such day. */
export function readDay(text: string): number | null {
  const parts = /^(\d{4})-(\d{1,2})-(\d{1,2})$/u.exec(text.trim());
  if (parts === null) return null;
  const [year = 0, month = 0, date = 0] = parts.slice(1).map(Number);
  const day = new Date(year, month - 1, date);
  return day.getMonth() === month - 1 && day.getTime() >= 0 ? day.getTime() : null;
}

/** The form for an instrument as the library has it. */
export const draftOf = ({ instrument, stringSet }: Overview): Draft => ({
  name: instrument.name,
  kind: instrument.kind,
  scaleLengthMillimetres: numberText(instrument.scaleLengthMillimetres),
  frets: numberText(instrument.frets),
  leftHanded: instrument.leftHanded,
  upsideDown: instrument.upsideDown,
  pegs: instrument.pegs,
  bridge: instrument.bridge,
  pegsHavePlay: instrument.pegsHavePlay,
  setName: stringSet.name,
  hasNewStrings: false,
  fittedOn: dayText(stringSet.fittedAt),
  courses: stringSet.courses.map(({ strings, home }) =>
    strings.map(({ material, wound, diameterMillimetres, linearDensityKilogramsPerMetre, ratedTensionNewtons }, index) => ({
      home: pitchText(home[index] ?? ''),
      material,
      wound,
      diameterMillimetres: numberText(diameterMillimetres),
      gramsPerMetre: linearDensityKilogramsPerMetre === null ? '' : String(Number((linearDensityKilogramsPerMetre * 1000).toPrecision(6))),
      ratedNewtons: numberText(ratedTensionNewtons ?? null),
    })),
  ),
});

const sentences = {
  name: 'Give the instrument a name of at most 60 letters.',
  kind: 'Say in a few words what it is, like “tenor, high G”.',
  scaleLengthMillimetres: 'From 150 to 1200 mm, nut to saddle.',
  frets: 'A whole number from 0 to 40.',
  fittedOn: 'A day that has been, like 2026-11-25.',
  setName: 'Give the strings a name, like “Fluorocarbon, low G”.',
  diameterMillimetres: 'From 0.1 to 4 mm, or empty.',
  gramsPerMetre: 'From 0.05 to 100 g/m, or empty.',
  ratedNewtons: 'From 1 to 500 N, or empty.',
} as const;

/** Reads the form for an instrument of the library: what to save, or what is wrong. `fresh` is the id and the moment of a new string set. */
export function readDraft(
  draft: Draft,
  { instrument, stringSet }: Overview,
  fresh: { readonly stringSetId: string; readonly at: number },
): Entry | { readonly problems: Problems } {
  const problems: Record<string, string> = {};
  const fittedAt = fittedAtOf(draft, stringSet, fresh.at);
  if (fittedAt === null) problems['fittedOn'] = sentences.fittedOn;
  const set = { ...stringSet, id: draft.hasNewStrings ? fresh.stringSetId : stringSet.id, fittedAt: fittedAt ?? stringSet.fittedAt };
  const courses = draft.courses.map((strings, course) => ({
    strings: strings.map((string, index) => ({
      ...coreOf(set.courses[course]?.strings[index], string),
      ...readString(string, `${course} ${index}`, problems),
    })),
    home: strings.map((string, index) => readHome(string, `${course} ${index}`, courseNumber(course, draft.courses.length), problems)),
  }));
  const next: Instrument = {
    ...instrument,
    name: draft.name.trim(),
    kind: draft.kind.trim(),
    scaleLengthMillimetres: readNumber(draft.scaleLengthMillimetres) ?? Number.NaN,
    frets: readNumber(draft.frets) ?? Number.NaN,
    leftHanded: draft.leftHanded,
    upsideDown: draft.upsideDown,
    pegs: draft.pegs,
    bridge: draft.bridge,
    pegsHavePlay: draft.pegsHavePlay,
    stringSetId: set.id,
  };
  checkInstrument(next, problems);
  const setName = draft.setName.trim();
  if (setName === '' || setName.length > 80) problems['setName'] = sentences.setName;
  const isGood = Object.keys(problems).length === 0;
  return isGood
    ? {
        instrument: next,
        stringSet: {
          ...set,
          name: setName,
          courses: courses.map(({ strings, home }, course) => ({
            ...set.courses[course],
            strings,
            home: home.flatMap((pitch) => pitch ?? []),
          })),
        },
      }
    : { problems };
}

/** When the strings were fitted: the moment itself where its day was left as it was or is today. Null for a day that is none, or still to come. */
function fittedAtOf({ fittedOn, hasNewStrings }: Draft, stringSet: StringSet, now: number): number | null {
  if (!hasNewStrings && fittedOn.trim() === dayText(stringSet.fittedAt)) return stringSet.fittedAt;
  if (fittedOn.trim() === dayText(now)) return now;
  const day = readDay(fittedOn);
  return day === null || day > now ? null : day;
}

function checkInstrument(instrument: Instrument, problems: Record<string, string>): void {
  for (const field of ['name', 'kind', 'scaleLengthMillimetres', 'frets'] as const) {
    if (!instrumentSchema.shape[field].safeParse(instrument[field]).success) problems[field] = sentences[field];
  }
}

/** A string as the form has it; a number that cannot be read is NaN. */
const written = ({ material, wound, diameterMillimetres, gramsPerMetre, ratedNewtons }: StringDraft): InstrumentString => ({
  material,
  wound,
  diameterMillimetres: diameterMillimetres.trim() === '' ? null : (readNumber(diameterMillimetres) ?? Number.NaN),
  linearDensityKilogramsPerMetre: gramsPerMetre.trim() === '' ? null : (readNumber(gramsPerMetre) ?? Number.NaN) / 1000,
  ...(ratedNewtons.trim() === '' ? {} : { ratedTensionNewtons: readNumber(ratedNewtons) ?? Number.NaN }),
});

/** The string that a line of the form describes; null while something in it is wrong. `known` is the string that the line was opened on. */
export function stringIn(draft: StringDraft, known: InstrumentString | undefined): InstrumentString | null {
  const read = stringSchema.safeParse({ ...coreOf(known, draft), ...written(draft) });
  return read.success ? read.data : null;
}

function readString(draft: StringDraft, place: string, problems: Record<string, string>): InstrumentString {
  const string = written(draft);
  const { shape } = stringSchema;
  if (!shape.diameterMillimetres.safeParse(string.diameterMillimetres).success)
    problems[`diameterMillimetres ${place}`] = sentences.diameterMillimetres;
  if (!shape.linearDensityKilogramsPerMetre.safeParse(string.linearDensityKilogramsPerMetre).success)
    problems[`gramsPerMetre ${place}`] = sentences.gramsPerMetre;
  if (!shape.ratedTensionNewtons.safeParse(string.ratedTensionNewtons).success) problems[`ratedNewtons ${place}`] = sentences.ratedNewtons;
  return string;
}

/** The core that a wound string is known to have; no longer once it is another string. */
const coreOf = (known: InstrumentString | undefined, draft: StringDraft): Partial<InstrumentString> =>
  known?.coreDiameterMillimetres !== undefined && draft.wound && draft.material === known.material
    ? { coreDiameterMillimetres: known.coreDiameterMillimetres }
    : {};

function readHome({ home }: StringDraft, place: string, number: number, problems: Record<string, string>): SpelledPitch | null {
  const pitch = readPitch(home);
  if (pitch === null)
    problems[`home ${place}`] =
      home.trim() === ''
        ? `Write the pitch of course ${number}, like ${pitchText('Eb4')}.`
        : `“${home.trim()}” is no pitch. Write it like ${pitchText('Eb4')}.`;
  return pitch;
}

/** A new instrument as a preset has it, or what is wrong with its name or scale length. */
export function readNew(
  draft: { readonly name: string; readonly scaleLengthMillimetres: string; readonly preset: InstrumentPreset },
  fresh: { readonly id: string; readonly stringSetId: string; readonly at: number },
): Entry | { readonly problems: Problems } {
  const { preset } = draft;
  const instrument: Instrument = {
    id: fresh.id,
    name: draft.name.trim(),
    presetId: preset.id,
    kind: preset.kind,
    scaleLengthMillimetres: readNumber(draft.scaleLengthMillimetres) ?? Number.NaN,
    frets: preset.frets,
    leftHanded: false,
    upsideDown: false,
    pegs: null,
    bridge: null,
    pegsHavePlay: false,
    inputLabel: null,
    inputChannel: 0,
    stringSetId: fresh.stringSetId,
    tuningId: null,
  };
  const problems: Record<string, string> = {};
  checkInstrument(instrument, problems);
  if (Object.keys(problems).length > 0) return { problems };
  const row = { id: fresh.stringSetId, instrumentId: fresh.id, name: 'First set', fittedAt: fresh.at };
  return { instrument, stringSet: stringSetFromPreset(preset, row) };
}
