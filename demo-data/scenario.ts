// Who plays what: the instruments, tunings and songs of an invented player. Names and music are made up for this demo.
import { presetById, stringSetFromPreset, type Instrument, type StringSet } from '#shared/instruments/index.ts';
import { parsePitches, type SpelledPitch } from '#shared/music/index.ts';
import type { Song } from '#shared/sets/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';

const dayMilliseconds = 86_400_000;

type Hardware = Pick<Instrument, 'pegs' | 'bridge' | 'pegsHavePlay'>;
type Fitting = { readonly name: string; readonly daysAgo: number };

const instrumentRow = (id: string, name: string, presetId: string, tuningId: string, hardware: Hardware, fittings: readonly Fitting[]) => {
  const preset = presetById(presetId);
  if (preset === null) throw new RangeError(`there is no instrument preset ${presetId}`);
  const stringSets: readonly StringSet[] = fittings.map((fitting, index) =>
    stringSetFromPreset(preset, {
      id: `${id}-${index + 1}`,
      instrumentId: id,
      name: fitting.name,
      fittedAt: fitting.daysAgo * dayMilliseconds,
    }),
  );
  const instrument: Instrument = {
    id,
    name,
    presetId,
    kind: preset.kind,
    scaleLengthMillimetres: preset.scaleLengthMillimetres,
    frets: preset.frets,
    leftHanded: false,
    upsideDown: false,
    ...hardware,
    inputLabel: null,
    inputChannel: 0,
    stringSetId: stringSets.at(-1)?.id ?? '',
    tuningId,
  };
  return { instrument, stringSets };
};

const straight = { pegsHavePlay: false } as const;

const fitted = [
  instrumentRow('demo-wren', 'Wren', 'ukulele-tenor-high-g', 'demo-home', { pegs: 'friction', bridge: 'tied', ...straight }, [
    { name: 'Fluorocarbon, first set', daysAgo: 571 },
    { name: 'Fluorocarbon, second set', daysAgo: 118 },
  ]),
  instrumentRow('demo-finch', 'Finch', 'ukulele-tenor-low-g', 'demo-home', { pegs: 'planetary', bridge: 'slotted', ...straight }, [
    { name: 'Fluorocarbon, low G', daysAgo: 402 },
  ]),
  instrumentRow('demo-moth', 'Moth', 'ukulele-baritone', 'demo-harbour-c', { pegs: 'geared', bridge: 'tied', ...straight }, [
    { name: 'Two wound, two plain', daysAgo: 447 },
  ]),
  instrumentRow('demo-rook', 'Rook', 'guitar-classical', 'demo-open-d', { pegs: 'geared', bridge: 'tied', ...straight }, [
    { name: 'Nylon, normal tension', daysAgo: 389 },
  ]),
  instrumentRow('demo-pip', 'Pip', 'ukulele-soprano-d6', 'demo-home', { pegs: 'friction', bridge: 'slotted', pegsHavePlay: true }, [
    { name: 'Synthetic gut, first set', daysAgo: 634 },
    { name: 'Synthetic gut, second set', daysAgo: 203 },
  ]),
  instrumentRow('demo-sedge', 'Sedge', 'ukulele-baritone-high-d', 'demo-home', { pegs: null, bridge: null, ...straight }, [
    { name: 'High D, one wound', daysAgo: 376 },
  ]),
];

export const instruments: readonly Instrument[] = fitted.map(({ instrument }) => instrument);
/** `fittedAt` is counted like the times of the log: milliseconds before the library is loaded. */
export const stringSets: readonly StringSet[] = fitted.flatMap(({ stringSets }) => stringSets);

function pitches(text: string): SpelledPitch[] {
  const read = parsePitches(text);
  if ('notAPitch' in read) throw new RangeError(`not a pitch: ${read.notAPitch}`);
  return [...read];
}

const ukulele = 'G4 C4 E4 A4';
const guitar = 'E2 A2 D3 G3 B3 E4';

type Extras = { readonly tags?: string[]; readonly notes?: string; readonly favourite?: true; readonly offsets?: readonly number[] };

const tuning = (home: string, id: string, name: string, to: string, extras: Extras = {}): Tuning => ({
  id: `demo-${id}`,
  name,
  courses: pitches(to).map((pitch, course) => ({ pitches: [pitch], offsetCents: extras.offsets?.[course] ?? 0 })),
  home: pitches(home).map((pitch) => [pitch]),
  favourite: extras.favourite ?? false,
  tags: extras.tags ?? [],
  notes: extras.notes ?? '',
});

export const tunings: readonly Tuning[] = [
  tuning(ukulele, 'home', 'Home', ukulele, { favourite: true, notes: 'Where every ukulele sleeps. C6; D6 on Pip, G6 on the baritones.' }),
  tuning(ukulele, 'harbour-c', 'Harbour C', 'G4 C4 E4 G4', {
    favourite: true,
    tags: ['open', 'one peg'],
    notes: 'Open C: 1 down a tone. Open G on the baritones.',
  }),
  tuning(ukulele, 'lantern-e-flat', 'Lantern E♭', 'G4 Bb3 Eb4 Bb4', {
    favourite: true,
    tags: ['open', 'winter set'],
    notes: 'Open E♭, B♭ lowest. Course 3 sounds soft; pluck it nearer the bridge.',
  }),
  tuning(ukulele, 'sextons-drone', 'Sexton’s drone', 'G4 C4 G4 C5', {
    tags: ['drone'],
    notes: 'C and G only, no third. Course 1 goes up three semitones: not on the tenors.',
  }),
  tuning(ukulele, 'two-herons', 'Two herons', 'G4 D4 G4 B4', {
    tags: ['open'],
    notes: 'Open G. All that moves goes up: see the break margin.',
  }),
  tuning(ukulele, 'ash-and-alder', 'Ash and alder', 'F4 Bb3 D4 G4', { tags: ['winter set'], notes: 'Everything down a tone. B♭6.' }),
  tuning(ukulele, 'cold-hearth', 'Cold hearth', 'G4 C4 Eb4 G4', { tags: ['open', 'minor', 'winter set'], notes: 'Open C minor.' }),
  tuning(ukulele, 'candle-end', 'Candle end', 'G4 C4 Eb4 A4', { tags: ['minor', 'one peg'], notes: '2 down a semitone. C minor 6.' }),
  tuning(ukulele, 'millers-step', 'Miller’s step', 'G4 B3 E4 A4', {
    tags: ['one peg'],
    notes: '3 down a semitone, for a low B under E minor.',
  }),
  tuning(ukulele, 'mill-leat', 'Mill leat', 'F4 C4 E4 A4', { tags: ['one peg'], notes: '4 down a tone. F major 7.' }),
  tuning(ukulele, 'half-door', 'Half-door', 'G4 C4 F4 A4', { tags: ['one peg'], notes: '2 up a semitone. F with its ninth.' }),
  tuning(ukulele, 'wet-slate', 'Wet slate', 'G4 C4 D4 A4', { tags: ['one peg', 'drone'], notes: '2 down a tone. A stack of fifths.' }),
  tuning(ukulele, 'bramble-g', 'Bramble G', 'G4 B3 D4 G4', {
    tags: ['open'],
    offsets: [0, -6, 0, 0],
    notes: 'Open G from above. The third is left 6 cents low: sweeter when all four ring.',
  }),
  tuning(ukulele, 'orchard-f', 'Orchard F', 'A4 C4 F4 A4', { tags: ['open'], notes: 'Open F: 4 up a tone, 2 up a semitone.' }),
  tuning(ukulele, 'tallow', 'Tallow', 'A4 D4 F4 A4', { tags: ['open', 'minor'], notes: 'Open D minor.' }),
  tuning(ukulele, 'plain-d', 'Plain D', 'A4 D4 F#4 B4', { notes: 'Everything up a tone. D6, as Pip has it at home.' }),
  tuning(guitar, 'guitar-home', 'Home', guitar, { favourite: true }),
  tuning(guitar, 'open-d', 'Open D', 'D2 A2 D3 F#3 A3 D4', { favourite: true, tags: ['open'] }),
  tuning(guitar, 'drop-d', 'Drop D', 'D2 A2 D3 G3 B3 E4', { tags: ['one peg'], notes: '6 down a tone.' }),
  tuning(guitar, 'open-g', 'Open G', 'D2 G2 D3 G3 B3 D4', { tags: ['open'] }),
  tuning(guitar, 'long-furrow', 'Long furrow', 'D2 A2 D3 G3 A3 D4', {
    tags: ['drone'],
    notes: 'D and A with a fourth: neither major nor minor.',
  }),
];

const song = (id: string, title: string, key: string, tuningId: string, instrumentId: string): Song => ({
  id: `demo-${id}`,
  title,
  key,
  tuningId: `demo-${tuningId}`,
  instrumentId: `demo-${instrumentId}`,
});

/** The first eight are tonight's, in playing order. */
export const songs: readonly Song[] = [
  song('nine-plain-stitches', 'Nine Plain Stitches', 'C', 'home', 'wren'),
  song('under-the-quince', 'Under the Quince', 'A minor', 'home', 'finch'),
  song('the-lantern-ferry', 'The Lantern Ferry', 'E♭', 'lantern-e-flat', 'wren'),
  song('weir-keepers-waltz', 'Weir-Keeper’s Waltz', 'A, capo 2', 'harbour-c', 'moth'),
  song('the-ropewalk-at-noon', 'The Ropewalk at Noon', 'E minor', 'guitar-home', 'rook'),
  song('borrowed-kettle', 'Borrowed Kettle', 'D', 'home', 'pip'),
  song('salt-on-the-sill', 'Salt on the Sill', 'E♭', 'lantern-e-flat', 'wren'),
  song('two-spoons-of-rain', 'Two Spoons of Rain', 'C', 'home', 'finch'),
  song('late-boat-low-water', 'Late Boat, Low Water', 'G', 'bramble-g', 'wren'),
  song('coat-for-the-scarecrow', 'A Coat for the Scarecrow', 'C minor', 'cold-hearth', 'finch'),
  song('counting-gates', 'Counting Gates', 'D', 'open-d', 'rook'),
  song('the-tin-weathercock', 'The Tin Weathercock', 'B♭', 'ash-and-alder', 'sedge'),
];
