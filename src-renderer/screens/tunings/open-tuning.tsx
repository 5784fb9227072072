import { Fragment, type ReactNode, useEffect, useRef, useState } from 'react';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Song } from '#shared/sets/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { stateOf } from '../../stores/strings.ts';
import { count, listed } from '../../ui/words.ts';
import { CautionBlock } from '../caution-block.tsx';
import { JudgedPulls } from '../judged-pulls.tsx';
import { inLetters } from '../numbers.ts';
import { EditLine } from './edit-line.tsx';
import { shownOn } from './shown-on.ts';
import { type Here, hereOn } from './here.ts';
import { SlipMark } from '../slip-mark.tsx';
import { useSlipping } from '../use-slipping.ts';
import { takersOf, takerWords } from './tuning-rows.ts';
import styles from './tunings.module.css';

type Props = {
  readonly tuning: Tuning;
  readonly here: Here | null;
  /** What it has in common with others of the library, a sentence each. */
  readonly related: readonly string[];
  readonly overview: Overview;
  readonly others: readonly Overview[];
  readonly tunings: readonly Tuning[];
  readonly songs: readonly Song[];
  readonly settings: Settings;
};

/** Of other instruments so many are named. */
const named = 6;

const firstOf = (names: readonly string[]): string =>
  names.length <= named ? listed(names) : `${names.slice(0, named).join(', ')} and ${count(names.length - named, 'other')}`;

/** A tuning's row, opened: what each string pulls now and in it, the songs in it, which other instruments take it. */
export function OpenTuning({ tuning, here: asKept, tunings, related, overview, others, songs, settings }: Props) {
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
  const [writing, setWriting] = useState<Tuning | null>(null);
  const here =
    writing === null ? asKept : hereOn(writing, { overview, settings, state: stateOf(overview, tunings, settings), isAtHome: false });
  const slipping = useSlipping();
  const { takes, cannot } = takersOf(writing ?? tuning, others, settings);
  return (
    <div ref={place} className={styles['open']}>
      {here === null ? null : (
        <JudgedPulls
          title="Pull of each string"
          judged={here.judged}
          from={here.from}
          to={here.to}
          overview={overview}
          settings={settings}
        />
      )}
      <EditLine tuning={tuning} ground={{ tuning, ...shownOn(tuning, overview, settings) }} onWriting={setWriting} />
      {here === null ? null : <CautionBlock judged={here.judged} courses={overview.stringSet.courses.length} />}
      <div className={styles['more']}>
        <div>
          {titles.length === 0 ? null : (
            <Part title="Songs">
              {titles.map((title) => (
                <p key={title}>{title}</p>
              ))}
            </Part>
          )}
        </div>
        <div className={styles['middle']}>
          {takes.length === 0 ? null : (
            <Part title="Also takes it">
              <p>
                {takes.slice(0, named).map((taker) => (
                  <Fragment key={taker.overview.instrument.id}>
                    {takerWords(taker)}
                    <SlipMark slipping={slipping(taker.overview.instrument.id)} />
                    {'. '}
                  </Fragment>
                ))}
                {takes.length <= named ? '' : `And ${count(takes.length - named, 'other instrument')}.`}
              </p>
            </Part>
          )}
          {related.length === 0 ? null : (
            <Part title="Like others">
              <p>{related.join(' ')}</p>
            </Part>
          )}
        </div>
        <div>
          {cannot.length === 0 ? null : (
            <Part title="Can’t take it">
              {cannot.map(({ names, courses }) => (
                <p key={courses}>
                  {firstOf(names)}: {inLetters(courses)} courses
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
