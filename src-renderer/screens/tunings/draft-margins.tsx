import type { Overview, Settings } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { stateOf } from '../../stores/strings.ts';
import { CautionBlock } from '../caution-block.tsx';
import { JudgedPulls } from '../judged-pulls.tsx';
import { type Draft, type Ground, readDraft } from './draft.ts';
import { hereOn } from './tuning-rows.ts';
import styles from './tuning-form.module.css';

type Props = {
  readonly draft: Draft;
  readonly ground: Ground;
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly settings: Settings;
};

/** What the tuning in the form asks of the instrument in hand, as it is typed; nothing while its pitches cannot be read. */
export function DraftMargins({ draft, ground, overview, tunings, settings }: Props) {
  const read = readDraft({ ...draft, name: draft.name.trim() === '' ? '…' : draft.name }, ground, 'draft');
  if ('problems' in read) return null;
  const home = ground.tuning === null ? homePitches(overview.stringSet) : read.home;
  const here = hereOn(overview, { ...read, home: home.map((strings) => [...strings]) }, stateOf(overview, tunings, settings), settings);
  if (here === null) return null;
  return (
    <div className={styles['margins']}>
      <JudgedPulls
        title={`On ${overview.instrument.name}, now and then`}
        judged={here.judged}
        from={here.from}
        to={here.to}
        overview={overview}
        settings={settings}
      />
      <CautionBlock judged={here.judged} courses={overview.stringSet.courses.length} />
    </div>
  );
}
