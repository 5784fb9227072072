// Instruments and tunings for the bench of retunes: presets with strings, bodies, pegs and players drawn around them.
import { carry, tuningPresets, wantedHertz } from '#shared/tunings/index.ts';
import { type InstrumentPreset, instrumentPresets } from '#shared/instruments/index.ts';
import { linearDensity, tensionNewtons } from '#shared/tension/index.ts';
import { hertz, millimetres } from '#shared/units/index.ts';
import { drawInstrument, drawPlayer, type Player, type VirtualInstrument } from '#shared/simulation/player/index.ts';
import type { Random } from '#shared/simulation/strings/index.ts';

export interface Scene {
  readonly preset: InstrumentPreset;
  readonly instrument: VirtualInstrument;
  readonly player: Player;
  readonly daysSinceChange: number;
  readonly densities: readonly number[];
  /** Tunings that it can take, home first, in hertz per place. */
  readonly tunings: readonly (readonly number[])[];
}

const presets = instrumentPresets.filter(({ courses }) => courses.every(({ strings }) => strings.length === 1));

/** What holds the steel or nylon lengthwise, over its density, in (km/s)². Drawn apart from what the coach assumes. */
const modulus = { nylon: 4, 'synthetic-gut': 4.5, gut: 5, fluorocarbon: 2.2, steel: 25.5 } as const;

/** Draws an instrument at home at 0 s, some cents off. */
export function drawScene(random: Random): Scene {
  const preset = random.pick(presets);
  const scale = millimetres(preset.scaleLengthMillimetres);
  const daysSinceChange = random.chance(0.1) ? random.between(0.2, 2) : random.between(4, 200);
  const home = wantedHertz(
    preset.courses.map(({ home: pitches }) => pitches),
    null,
    hertz(440),
  ).map(([first]) => first ?? hertz(440));
  const densities = preset.courses.map(({ strings }) => linearDensity(strings[0]!)?.value ?? 0.0005);
  const strings = preset.courses.map(({ strings: [string] }, place) => ({
    facts: { material: string!.material, wound: string!.wound, daysSinceChange },
    hertz: home[place]! * 2 ** (random.normal(3) / 1200),
    newtons: tensionNewtons(densities[place] as Parameters<typeof tensionNewtons>[0], scale, home[place]!),
    stiffness:
      densities[place]! * modulus[string!.material] * (string!.wound ? random.between(0.2, 0.4) : 1) * random.betweenLog(0.8, 1.25),
  }));
  const pitches = preset.courses.map(({ home: own }) => own);
  const tunings = tuningPresets.flatMap((tuning) => {
    const row = {
      home: tuning.home.map((pitch) => [pitch]),
      courses: tuning.pitches.map((pitch) => ({ pitches: [pitch], offsetCents: 0 })),
    };
    const carried = carry(row, pitches);
    return carried === null ? [] : [wantedHertz(carried.pitches, null, hertz(440)).map(([first]) => first ?? hertz(440))];
  });
  const instrument = drawInstrument(random, { strings, slipChance: 0.003 }, 0);
  return { preset, instrument, player: drawPlayer(random), daysSinceChange, densities, tunings };
}

/** A tuning to go to: a starter tuning, or with equal chance one in which one to all courses are moved by up to three semitones. */
export function drawTarget(random: Random, scene: Scene, from: readonly number[]): readonly number[] {
  const [home = []] = scene.tunings;
  for (;;) {
    const wanted = random.chance(0.5)
      ? random.pick(scene.tunings)
      : home.map((pitch) => (random.chance(0.6) ? pitch * 2 ** (random.pick([-3, -2, -1, 1, 2]) / 12) : pitch));
    if (wanted.some((pitch, place) => Math.abs(1200 * Math.log2(pitch / (from[place] ?? pitch))) > 50)) return wanted;
  }
}
