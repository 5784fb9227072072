import { useEffect, useState } from 'react';
import type { Output, Overview, Settings } from '#shared/contract/index.ts';
import { lessonsOf, settleSeconds } from '../../stores/lessons.ts';
import { horizonSeconds } from '../../stores/settling.ts';
import type { Line } from './lines.ts';
import { settleWords, turnWords } from './time-words.ts';
import styles from './plan-page.module.css';

type Props = {
  readonly overview: Overview;
  readonly settings: Settings;
  readonly log: Output<'log.read'>;
  readonly moving: readonly Line[];
  readonly now: number;
};

/** How long it takes to turn, and then to settle; apart, because a player waits for the one and plays something else during the other. */
export function PlanTime({ overview, settings, log, moving, now }: Props) {
  const { toleranceCents } = settings;
  const turned = moving.map(({ course, cents }) => `${course} ${Math.round(cents)}`).join(', ');
  const [settles, setSettles] = useState<{ readonly turned: string; readonly seconds: number | null } | null>(null);
  useEffect(() => {
    // What the log teaches of every string takes a while to work out: the page is shown first.
    const timer = setTimeout(() => {
      const lessons = lessonsOf(overview, log, now);
      const policy = { toleranceCents, horizonSeconds };
      const each = lessons.flatMap((lesson) => {
        const cents = moving.find(({ course }) => course === lesson.course)?.cents;
        return cents === undefined ? [] : [settleSeconds(lesson, { atSeconds: now / 1000, cents }, policy)];
      });
      setSettles({ turned, seconds: each.includes(null) ? null : Math.max(0, ...each.map((seconds) => seconds ?? 0)) });
    });
    return () => clearTimeout(timer);
    // `turned` stands for the moves.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [overview, log, turned, toleranceCents, now]);
  return (
    <div className={styles['times']}>
      <p className={styles['time']}>
        <strong>{turnWords(moving.length, now)}</strong>
      </p>
      <p className={`quiet ${styles['settles']}`}>
        {moving.length === 0 || settles?.turned !== turned ? '' : settleWords(settles.seconds, moving.length, now)}
      </p>
    </div>
  );
}
