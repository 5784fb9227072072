import { courseScaleLength, type Instrument, type InstrumentString, type StringSet } from '#shared/instruments/index.ts';
import { linearDensity } from '#shared/tension/index.ts';
import type { Millimetres } from '#shared/units/index.ts';

/** The instrument as a coach takes it. */
type CoachInstrument = {
  readonly scaleLengthMillimetres: number;
  readonly courses: readonly {
    readonly scaleLengthMillimetres: Millimetres;
    readonly strings: readonly CoachString[];
  }[];
};

type CoachString = Omit<InstrumentString, 'linearDensityKilogramsPerMetre'> & {
  readonly daysSinceChange: number | null;
  readonly linearDensityKilogramsPerMetre: number | null;
};

/**
 * What a coach is to know of an instrument and the strings on it. A linear density is the maker's where it is known, else worked out from material
 * and gauge, else null; `daysSinceChange` is null where nobody noted when a string was fitted.
 * `start({ instrument: coachInstrument(instrument, stringSet, () => 118), … })`.
 */
export const coachInstrument = (
  instrument: Pick<Instrument, 'scaleLengthMillimetres'>,
  { courses }: Pick<StringSet, 'courses'>,
  daysSinceChange: (course: number, string: number) => number | null,
): CoachInstrument => ({
  scaleLengthMillimetres: instrument.scaleLengthMillimetres,
  courses: courses.map((on, course) => ({
    scaleLengthMillimetres: courseScaleLength(instrument, on),
    strings: on.strings.map((fitted, string) => ({
      ...fitted,
      daysSinceChange: daysSinceChange(course, string),
      linearDensityKilogramsPerMetre: linearDensity(fitted)?.value ?? null,
    })),
  })),
});
