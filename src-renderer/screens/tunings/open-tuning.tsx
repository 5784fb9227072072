import { type ReactNode, useEffect, useRef } from 'react';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { writtenPitch } from '#shared/music/index.ts';
import type { Song } from '#shared/sets/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { pullAt, usualPull } from '../../stores/pull.ts';
import { beadKind } from '../../ui/bead.ts';
import { PullBoard } from '../../ui/pull-board.tsx';
import { figure, listed } from '../../ui/words.ts';
import { inLetters } from '../numbers.ts';
import { type Here, takersOf } from './tuning-rows.ts';
import styles from './tunings.module.css';

type Props = {
  readonly tuning: Tuning;
  readonly here: Here | null;
  readonly twins: readonly string[];
  readonly overview: Overview;
  readonly others: readonly Overview[];
  readonly songs: readonly Song[];
  readonly settings: Settings;
};

/** A tuning's row, opened: what each string pulls now and in it, the songs in it, which other instruments take it. */
export function OpenTuning({ tuning, here, twins, overview, others, songs, settings }: Props) {
  const titles = songs.filter(({ tuningId }) => tuningId === tuning.id).map(({ title }) => title);
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // Two frames on, the list has measured the row and moved those below it.
    let request = requestAnimationFrame(() => {
      request = requestAnimationFrame(() => {
        place.current?.closest('[role="row"]')?.scrollIntoView({ block: 'nearest' });
      });
    });
    return () => cancelAnimationFrame(request);
  }, []);
  const { takes, cannot } = takersOf(tuning, others, settings);
  return (
    <div ref={place} className={styles['open']}>
      {here === null ? null : <Pulls here={here} overview={overview} settings={settings} />}
      <div className={styles['more']}>
        <div>
          <Part title="Songs">
            {titles.length === 0 ? <p className="quiet">none in it</p> : titles.map((title) => <p key={title}>{title}</p>)}
          </Part>
        </div>
        <div className={styles['middle']}>
          {takes.length === 0 ? null : (
            <Part title="Also takes it">
              <p>
                {takes
                  .map(
                    ({ name, chord, margin }) => `${name}${chord === null ? '' : ` as ${chord}`}${margin === null ? '' : `, ${margin}`}.`,
                  )
                  .join(' ')}
              </p>
            </Part>
          )}
          {twins.length === 0 ? null : <Part title={`Sounds the same on ${overview.instrument.name}`}>{listed(twins)}</Part>}
          {tuning.tags.length === 0 ? null : <Part title="Tags">{tuning.tags.join(', ')}</Part>}
          {tuning.notes === '' ? null : <Part title="Notes">{tuning.notes}</Part>}
        </div>
        <div>
          {cannot.length === 0 ? null : (
            <Part title="Can’t take it">
              {cannot.map(({ names, courses }) => (
                <p key={courses}>
                  {listed(names)}: {inLetters(courses)} courses
                </p>
              ))}
            </Part>
          )}
        </div>
      </div>
    </div>
  );
}

const Part = ({ title, children }: { readonly title: string; readonly children: ReactNode }) => (
  <div className={styles['part']}>
    <p className="small quiet">{title}</p>
    {children}
  </div>
);

function Pulls({ here, overview, settings }: { readonly here: Here; readonly overview: Overview; readonly settings: Settings }) {
  const { courses } = overview.stringSet;
  const lines = here.to.hertz.flatMap((strings, course) =>
    strings.map((wanted, string) => {
      const semitones = here.away[course]?.[string] ?? 0;
      const stays = here.moves[course]?.semitones === 0 && Math.abs(semitones) < 0.5;
      const later = pullAt(overview, course, string, wanted).newtons;
      const now = stays ? later : pullAt(overview, course, string, wanted * 2 ** (semitones / 12)).newtons;
      const from = here.moves[course]?.from[string];
      const to = here.to.pitches[course]?.[string];
      return {
        id: `${course} ${string}`,
        number: courseNumber(course, courses.length),
        now,
        later: stays ? null : later,
        kind: stays ? ('within' as const) : beadKind(semitones * 100, 0, settings.toleranceCents),
        gauge: courses[course]?.strings[string]?.diameterMillimetres ?? 0.7,
        head: (
          <>
            {stays || from === undefined || from === to ? null : (
              <>
                {writtenPitch(from)} <span className="faint">→</span>{' '}
              </>
            )}
            {writtenPitch(to ?? '')}
          </>
        ),
        tail: now === null || later === null ? 'not known' : stays ? `${figure(later, 1)} N` : `${figure(now, 1)} → ${figure(later, 1)} N`,
        pull: { now, later },
      };
    }),
  );
  const total = (which: 'now' | 'later'): number | null =>
    lines.reduce<number | null>((sum, { pull }) => (sum === null || pull[which] === null ? null : sum + pull[which]), 0);
  const [now, later] = [total('now'), total('later')];
  return (
    <PullBoard
      title="Pull of each string"
      together={now === null || later === null ? '' : `${figure(now)} → ${figure(later)} N together`}
      usual={usualPull(overview.instrument)}
      lines={lines}
    />
  );
}
