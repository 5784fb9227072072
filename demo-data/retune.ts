import type { Reading, Retune, Turn } from '#shared/log/index.ts';
import { drawMoments, type Random } from '#shared/simulation/strings/index.ts';
import { moveOrder, type Tuning } from '#shared/tunings/index.ts';
import { pitchCents, turnPeg, wantedOf, type Strung } from './strung.ts';

/** A retune to be played through. Seconds count up to the moment of loading, which is 0. */
export type RetunePlan = {
  readonly from: Tuning;
  readonly to: Tuning;
  readonly atSeconds: number;
  /** When the strings that were turned are to have settled onto their pitch; null = they are set to it at once. */
  readonly leadSeconds: number | null;
  /** Nearer than this the player leaves a string alone, in cents. */
  readonly leaveAloneCents: number;
  /** When the strings that were turned, and those that were not, are heard, in seconds after the retune; null = drawn. */
  readonly heardSeconds: readonly number[] | null;
  /** Steps by which a course gives way afterwards. */
  readonly slips: readonly { readonly course: number; readonly afterSeconds: number; readonly cents: number }[];
};

type WithoutIds<Row> = Omit<Row, 'id' | 'retuneId'>;
/** A retune's rows before they have ids. Times are milliseconds before loading. */
export type RetuneRows = {
  readonly retune: WithoutIds<Retune>;
  readonly turns: readonly WithoutIds<Turn>[];
  readonly readings: readonly WithoutIds<Reading>[];
};

const longestLeadCents = 15;

/** A number as short as it is written in the file. */
const tidy = (value: number, digits: number): number => Number(value.toFixed(digits));
const millisecondsAgo = (atSeconds: number): number => Math.round(-atSeconds * 1000);

/** Plays a retune on the virtual strings, and writes down what the player and the app would have. */
export function playRetune(random: Random, on: Strung, plan: RetunePlan): RetuneRows {
  const wanted = wantedOf(on, plan.to);
  const turns: WithoutIds<Turn>[] = [];
  let atSeconds = plan.atSeconds;

  const turn = (course: number, centsToGo: number) => {
    const cents = tidy(centsToGo, 2);
    turnPeg(on, course, atSeconds, cents);
    turns.push({ at: millisecondsAgo(atSeconds), course, string: 0, cents });
    atSeconds += random.between(5, 9);
  };
  const aims = wanted.cents.map((cents, course) => cents - leadOf(on, course, cents - pitchCents(on, course, atSeconds), plan.leadSeconds));
  const away = () => aims.map((aim, course) => aim - pitchCents(on, course, atSeconds));
  // Two passes: the second mends what the pull of the others did.
  for (let pass = 0; pass < 2; pass++) {
    for (const course of moveOrder(away().map((cents) => (Math.abs(cents) > plan.leaveAloneCents ? cents : 0)))) {
      atSeconds += random.between(6, 12);
      const far = away()[course] ?? 0;
      if (Math.abs(far) > 30) turn(course, far * random.between(0.88, 0.98));
      turn(course, (away()[course] ?? 0) + random.normal(0.6));
    }
  }
  const finishedAtSeconds = atSeconds;
  for (const { course, afterSeconds, cents } of plan.slips)
    on.strings[course]?.events.push({ kind: 'slip', atSeconds: finishedAtSeconds + afterSeconds, cents });

  const wantedRows = wanted.hertz.map((hertz) => tidy(hertz, 3));
  const readings = wantedRows.flatMap((wantedHertz, course) => {
    const turned = turns.some((one) => one.course === course);
    const moments = plan.heardSeconds ?? (turned ? drawMoments(random, 7, 25, 1900) : [random.between(30, 70), random.between(700, 1500)]);
    return moments.map((afterSeconds): WithoutIds<Reading> => {
      const heardAtSeconds = Math.min(-1, finishedAtSeconds + afterSeconds + course * 2.5);
      const sigmaCents = tidy(random.betweenLog(0.2, 1), 2);
      const fromHome = pitchCents(on, course, heardAtSeconds) + random.normal(sigmaCents);
      const hertz = tidy((on.strings[course]?.homeHertz ?? wantedHertz) * 2 ** (fromHome / 1200), 3);
      return {
        stringSetId: on.set.id,
        at: millisecondsAgo(heardAtSeconds),
        course,
        string: 0,
        hertz,
        wantedHertz,
        deviationCents: tidy(1200 * Math.log2(hertz / wantedHertz), 2),
        sigmaCents,
        source: 'pluck',
      };
    });
  });
  return {
    retune: {
      instrumentId: on.instrument.id,
      stringSetId: on.set.id,
      fromTuningId: plan.from.id,
      toTuningId: plan.to.id,
      startedAt: millisecondsAgo(plan.atSeconds),
      finishedAt: millisecondsAgo(finishedAtSeconds),
      wantedHertz: wantedRows.map((hertz) => [hertz]),
    },
    turns,
    readings,
  };
}

/** How far a string will drift by then from being turned so far, at most 15 cents: it is left that much on the other side. */
function leadOf({ strings }: Strung, course: number, centsToGo: number, leadSeconds: number | null): number {
  const here = strings[course];
  if (here === undefined || leadSeconds === null || Math.abs(centsToGo) < 30) return 0;
  const drift = here.string.centsPerDecade * (centsToGo / 100) * Math.log10(1 + leadSeconds / 60);
  return Math.max(-longestLeadCents, Math.min(longestLeadCents, drift));
}
