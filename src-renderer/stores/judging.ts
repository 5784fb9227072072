import type { Overview, Settings } from '#shared/contract/index.ts';
import { courseScaleLength, homePitches, presetById } from '#shared/instruments/index.ts';
import { pitchMidi } from '#shared/music/index.ts';
import { judgeLoad, judgeMove, type Load, type MoveJudgement, totalPull } from '#shared/tension/index.ts';
import { wantedHertz } from '#shared/tunings/index.ts';
import { centsBetween, hertz, newtons } from '#shared/units/index.ts';
import { type Pull, pullAt } from './pull.ts';
import type { State, TuningHere } from './strings.ts';

/** What a tuning asks of one string: from where it is now, and against the home that the string is made for. */
export type StringJudgement = {
  readonly course: number;
  readonly string: number;
  /** From where it is now to where it is wanted; positive = tighten, 0 where it stays. */
  readonly semitones: number;
  /** What it pulls now; null where its figures are not known. */
  readonly nowNewtons: number | null;
  /** What it pulls in the tuning, and what is left there. */
  readonly later: Pull;
  /** The move from its home. */
  readonly fromHome: MoveJudgement;
};

/** What a tuning asks of an instrument. `load` is null where a string's figures are not known. */
export type TuningJudgement = {
  readonly strings: readonly StringJudgement[];
  readonly load: Load | null;
};

/** A string that keeps its pitch and is nearer to it than this stays: what it drifted by is for a touch-up, not for a choice of tuning. */
const staysWithinSemitones = 0.5;

/**
 * Judges a tuning on an instrument in a state. What a string can take is judged from its home, for which it was chosen; how far it has to go from
 * where it is.
 */
export function judgeTuning(
  overview: Overview,
  to: TuningHere,
  state: State,
  { referenceHertz }: Pick<Settings, 'referenceHertz'>,
): TuningJudgement {
  const { instrument, stringSet } = overview;
  const preset = presetById(instrument.presetId);
  const least = preset?.usualPullNewtons?.[0];
  const home = wantedHertz(homePitches(stringSet), null, hertz(referenceHertz));
  const strings = stringSet.courses.flatMap((on, course) =>
    on.strings.flatMap((fitted, string): StringJudgement[] => {
      const [from, wanted, now] = [home[course]?.[string], to.hertz[course]?.[string], state.present[course]?.[string]];
      if (from === undefined || wanted === undefined) return [];
      const away = now === undefined ? 0 : centsBetween(hertz(wanted), hertz(now)) / 100;
      const [before, after] = [state.tuning.pitches[course]?.[string], to.pitches[course]?.[string]];
      const isSamePitch = before !== undefined && after !== undefined && pitchMidi(before) === pitchMidi(after);
      const semitones = isSamePitch && Math.abs(away) < staysWithinSemitones ? 0 : away;
      return [
        {
          course,
          string,
          semitones,
          nowNewtons: pullAt(overview, course, string, semitones === 0 ? wanted : now).newtons,
          later: pullAt(overview, course, string, wanted),
          fromHome: judgeMove({
            string: fitted,
            scaleLength: courseScaleLength(instrument, on),
            from,
            to: hertz(wanted),
            leastUsualPull: least === undefined ? null : newtons(least),
          }),
        },
      ];
    }),
  );
  const [planned, atHome] = (['after', 'before'] as const).map((when) => totalPull(strings.map(({ fromHome }) => fromHome[when])));
  return {
    strings,
    load:
      planned === undefined || planned === null || atHome === undefined || atHome === null
        ? null
        : judgeLoad(planned.value, atHome.value, preset?.usualTotalPullNewtons ?? null),
  };
}
