import type { Overview, Settings } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import type { TuningJudgement } from '../stores/judging.ts';
import { usualPull } from '../stores/pull.ts';
import type { TuningHere } from '../stores/strings.ts';
import { beadKind } from '../ui/bead.ts';
import { PullBoard } from '../ui/pull-board.tsx';
import { figure, pitchText } from '../ui/words.ts';
import { bothMargins } from './margins.ts';
import { changeWords, leftWords, togetherOf } from './judged.ts';

type Props = {
  readonly title: string;
  readonly judged: TuningJudgement;
  /** What it is in now, and where it would go. */
  readonly from: TuningHere;
  readonly to: TuningHere;
  readonly overview: Overview;
  readonly settings: Pick<Settings, 'toleranceCents'>;
};

/** What a tuning asks of every string: from where to where, how far, what it pulls before and after, and what is left then. */
export function JudgedPulls({ title, judged: { strings }, from, to, overview: { instrument, stringSet }, settings }: Props) {
  const now = togetherOf(strings.map(({ nowNewtons }) => nowNewtons));
  const later = togetherOf(strings.map((one) => one.later.newtons));
  const isMoving = strings.some(({ semitones }) => semitones !== 0);
  return (
    <PullBoard
      title={title}
      together={now === null || later === null ? '' : `${pullWords(now, later, 0)} together`}
      usual={usualPull(instrument)}
      lines={strings.map((one) => {
        const { course, string, semitones, nowNewtons } = one;
        const on = stringSet.courses[course];
        const stays = semitones === 0;
        const [before, after] = [from.pitches[course]?.[string], to.pitches[course]?.[string]];
        return {
          id: `${course} ${string}`,
          number: courseNumber(course, stringSet.courses.length),
          now: nowNewtons,
          later: stays ? null : one.later.newtons,
          kind: stays ? ('within' as const) : beadKind(-semitones * 100, 0, settings.toleranceCents),
          gauge: on?.strings[string]?.diameterMillimetres ?? 0.7,
          head: (
            <>
              {stays || before === undefined || before === after ? null : (
                <>
                  {pitchText(before)} <span className="faint">→</span>{' '}
                </>
              )}
              {pitchText(after ?? '')} <span className="small quiet">{changeWords(one)}</span>
            </>
          ),
          tail: (
            <>
              {nowNewtons === null || one.later.newtons === null ? 'not known' : pullWords(nowNewtons, one.later.newtons, 1)}{' '}
              <span className="small quiet">{isMoving ? leftWords(one) : bothMargins(one.later)}</span>
            </>
          ),
        };
      })}
    />
  );
}

/** `38.8 → 30.8 N`; one number where nothing changes. */
function pullWords(now: number, later: number, decimals: number): string {
  const [before, after] = [figure(now, decimals), figure(later, decimals)];
  return before === after ? `${after} N` : `${before} → ${after} N`;
}
