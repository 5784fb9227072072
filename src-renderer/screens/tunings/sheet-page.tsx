import { useState } from 'react';
import type { Overview } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import type { OpenPitches, Tuning } from '#shared/tunings/index.ts';
import type { TuningHere } from '../../stores/strings.ts';
import { Button } from '../../ui/button.tsx';
import { Paper } from '../../ui/paper.tsx';
import { useTop } from '../../ui/top.ts';
import { TwoWay } from '../../ui/two-way.tsx';
import { ByEarPaper } from './by-ear-paper.tsx';
import { TuningPaper } from './tuning-paper.tsx';
import styles from './sheet-page.module.css';

export type SheetKind = 'tuning' | 'by-ear';

type Props = {
  readonly kind: SheetKind;
  readonly tuning: Tuning;
  readonly to: TuningHere;
  /** The pitches that the instrument is in now. */
  readonly present: OpenPitches;
  readonly overview: Overview;
  readonly referenceHertz: number;
  readonly onLeave: () => void;
};

/** A tuning for paper: its pitches, or how a pupil gets there by ear. */
export function SheetPage({ kind: opensOn, tuning, to, present, overview, referenceHertz, onLeave }: Props) {
  const [kind, setKind] = useState(opensOn);
  const home = homePitches(overview.stringSet);
  const isAway = present.flat().join(' ') !== home.flat().join(' ');
  const [from, setFrom] = useState<'home' | 'now'>(isAway && present.flat().join(' ') !== to.pitches.flat().join(' ') ? 'now' : 'home');
  const page = useTop<HTMLDivElement>();
  return (
    <div ref={page} className={styles['page']}>
      <div className={styles['choices']}>
        <TwoWay
          label="Which sheet"
          options={[
            { value: 'tuning', words: 'Tuning sheet' },
            { value: 'by-ear', words: 'By ear' },
          ]}
          value={kind}
          onChange={setKind}
        />
        {kind === 'by-ear' && isAway ? (
          <TwoWay
            label="Starting from"
            options={[
              { value: 'home', words: 'from home' },
              { value: 'now', words: 'from where it is now' },
            ]}
            value={from}
            onChange={setFrom}
          />
        ) : null}
      </div>
      <Paper label={kind === 'tuning' ? 'Tuning sheet' : 'By-ear sheet'}>
        {kind === 'tuning' ? (
          <TuningPaper tuning={tuning} to={to} overview={overview} referenceHertz={referenceHertz} />
        ) : (
          <ByEarPaper tuning={tuning} to={to} overview={overview} from={from === 'now' ? present : home} />
        )}
      </Paper>
      <div className={styles['buttons']}>
        <Button look="solid" autoFocus onPress={() => print()}>
          Print
        </Button>
        <Button look="plain" onPress={onLeave}>
          Back to the tunings
        </Button>
      </div>
    </div>
  );
}
