import { useEffect, useState } from 'react';
import type { Output, Overview, Settings } from '#shared/contract/index.ts';
import type { Tonight } from '#shared/settling/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { leaveIt, retuneBy, type RetuneBy } from '../../stores/later.ts';
import { lessonsOf } from '../../stores/lessons.ts';
import { horizonSeconds } from '../../stores/settling.ts';
import { stateOf, tuningOn } from '../../stores/strings.ts';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { momentOf, proposedTime, retuneByWords, tonightWords } from './hold-at.ts';
import { homeChoice, nextTunings } from './next-tunings.ts';
import styles from './later-lines.module.css';

type Props = {
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly settings: Settings;
  readonly log: Output<'log.read'>;
  readonly now: number;
};

const day = 86_400;

/** The forecasts run backwards: by when to retune for a time of day, and whether to leave the instrument as it is tonight. */
export function LaterLines({ overview, tunings, settings, log, now }: Props) {
  const options = nextTunings(overview, tunings, settings);
  const [time, setTime] = useState(() => proposedTime(now));
  const [chosen, setChosen] = useState<string | null>(null);
  const id = chosen ?? options[0]?.value ?? null;
  const holdAt = momentOf(time, now);
  const found = useLater({ overview, tunings, settings, log, now, isAway: options[0]?.value === homeChoice }, id, holdAt);
  if (id === null) return null;
  const by = found?.by === undefined || found.by === null || holdAt === null ? null : retuneByWords(found.by, holdAt, now);
  const night = found?.night === undefined || found.night === null ? null : tonightWords(found.night);
  return (
    <div className={styles['lines']}>
      <div className={styles['hold']}>
        To hold at
        <div className={styles['time']}>
          <Field label="Hold at" hideLabel value={time} onChange={setTime} problem={holdAt === null ? 'like 20:00' : null} />
        </div>
        in
        <Choice label="Tuning to hold in" hideLabel isPlain options={options} value={id} onChange={setChosen} />
        {by === null ? null : (
          <output>
            <strong>{by.strong}</strong>
            {by.rest}
          </output>
        )}
      </div>
      {night === null ? null : (
        <p className={`small quiet ${styles['tonight']}`}>
          <strong>{night.strong}</strong>
          {night.rest}
        </p>
      )}
    </div>
  );
}

type Found = { readonly by: RetuneBy | null; readonly night: Tonight | null };

/** Both forecasts; they take a while, so the page is shown first. */
function useLater(
  { overview, tunings, settings, log, now, isAway }: Props & { readonly isAway: boolean },
  tuningId: string | null,
  holdAt: number | null,
): Found | null {
  const [found, setFound] = useState<Found | null>(null);
  const minute = Math.floor(now / 60) * 60;
  useEffect(() => {
    const timer = setTimeout(() => {
      const { present } = stateOf(overview, tunings, settings);
      const policy = { toleranceCents: settings.toleranceCents, horizonSeconds };
      const way = { lessons: lessonsOf(overview, log, now * 1000), present, policy, nowSeconds: minute };
      const to = tuningOn(overview, tunings.find((one) => one.id === tuningId) ?? null, settings);
      const home = tuningOn(overview, null, settings);
      setFound({
        by: to === null || holdAt === null ? null : retuneBy({ ...way, wanted: to.hertz }, holdAt),
        night: home === null || !isAway ? null : leaveIt({ ...way, wanted: home.hertz }, minute + day),
      });
    });
    return () => clearTimeout(timer);
    // Once a minute is enough.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [overview, tunings, settings, log, minute, isAway, tuningId, holdAt]);
  return found;
}
