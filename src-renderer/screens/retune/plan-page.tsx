import { useNavigate } from '@tanstack/react-router';
import { useMemo, useState } from 'react';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { openChord } from '#shared/music/index.ts';
import { cautionShare, confirmShare } from '#shared/tension/index.ts';
import { carry, type Tuning } from '#shared/tunings/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import { useHost } from '../../stores/host.tsx';
import { useLibrary } from '../../stores/library.ts';
import { beginRetune } from '../../stores/retuning.ts';
import { hearStrum } from '../../stores/session.ts';
import { soundFor } from '../../stores/sound-choice.ts';
import { stateOf, tuningOn } from '../../stores/strings.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { useKeys } from '../../ui/keys.ts';
import { count, figure, listed } from '../../ui/words.ts';
import { asSeen } from '../stack.ts';
import { BreakConfirmation } from './break-confirmation.tsx';
import { linesOf } from './lines.ts';
import { PlanBoard } from './plan-board.tsx';
import styles from './plan-page.module.css';

type Props = {
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly tuning: Tuning | null;
  readonly settings: Settings;
};

/** Minutes to turn one course, hearing it included (common practice). */
const minutesACourse = 1;

/** What will be done, before a peg is touched. */
export function PlanPage({ overview, tunings, tuning, settings }: Props) {
  const host = useHost();
  const navigate = useNavigate();
  const { data: status } = useLibrary('library.status', {});
  const [isAsking, setAsking] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const to = tuningOn(overview, tuning, settings);
  const plan = useMemo(() => {
    if (to === null) return null;
    const { tuning: from, present } = stateOf(overview, tunings, settings);
    return { from, lines: linesOf(overview, from, to, present, settings.toleranceCents) };
  }, [overview, tunings, settings, to]);
  const fitting = tunings.filter((one) => carry(one, homePitches(overview.stringSet)) !== null);

  const begin = () => {
    setAsking(false);
    const sound = soundFor(overview, settings, status);
    beginRetune({ host, overview, tunings, tuning, settings, sound }).catch((fault: unknown) =>
      setProblem(fault instanceof Error ? fault.message : String(fault)),
    );
  };
  const moving = plan?.lines.filter(({ turn }) => turn !== null).sort((a, b) => (a.turn ?? 0) - (b.turn ?? 0)) ?? [];
  const nearBreaking = moving.filter(({ cents, after }) => cents > 0 && (after.breakShare ?? 0) > confirmShare);
  const startListening = () => (nearBreaking.length > 0 ? setAsking(true) : begin());
  const hear = () => {
    if (to !== null) hearStrum(to.hertz.flat());
  };
  useKeys({ ' ': startListening, PageDown: startListening, h: hear });

  if (to === null || plan === null) {
    return (
      <p className="lead">
        {tuning?.name ?? 'This tuning'} has other courses than {overview.instrument.name}.
      </p>
    );
  }
  const total = (which: 'now' | 'after') =>
    plan.lines.reduce<number | null>(
      (sum, line) => (sum === null || line[which].newtons === null ? null : sum + (line[which].newtons ?? 0)),
      0,
    );
  const [pullNow, pullAfter] = [total('now'), total('after')];
  const chord = openChord(to.pitches.flat());
  const cautious = moving.filter(({ cents, after }) => cents > 0 && (after.breakShare ?? 0) > cautionShare);
  return (
    <div className={styles['page']}>
      <div className={styles['title']}>
        <div>
          <h1>{to.name}</h1>
          <p className="quiet">{chord === null ? 'Open courses make no chord with a plain name.' : `Open courses make ${chord}.`}</p>
        </div>
        <div className={styles['choose']}>
          <Choice
            label="Tuning to go to"
            hideLabel
            value={tuning?.id ?? 'home'}
            options={[
              { value: 'home', words: 'Home' },
              ...fitting.filter(({ name }) => name !== 'Home').map(({ id, name }) => ({ value: id, words: name })),
            ]}
            onChange={(id) =>
              void navigate({ to: '/retune', search: { on: overview.instrument.id, ...(id === 'home' ? {} : { to: id }) } })
            }
          />
          <p className={styles['time']}>
            <strong>{moving.length === 0 ? 'Nothing to turn' : `About ${count(moving.length * minutesACourse, 'minute')} to turn`}</strong>
          </p>
        </div>
      </div>
      <PlanBoard lines={asSeen(plan.lines, overview.instrument)} />
      <dl className={styles['notes']}>
        <dt>Order</dt>
        <dd>
          {moving.length === 0
            ? 'Every course is where it should be. Start to check them.'
            : 'Loosen first, then tighten, the largest first: the neck carries least while you work.'}
        </dd>
        <dd className={styles['figure']}>{moving.map(({ number }) => number).join(', ')}</dd>
        {pullNow === null || pullAfter === null ? null : (
          <>
            <dt>Pull</dt>
            <dd>All strings together. What the maker or a luthier says goes before these figures.</dd>
            <dd className={styles['figure']}>
              {figure(pullNow)} → {figure(pullAfter)} N
            </dd>
          </>
        )}
        <dt>Care</dt>
        <dd>
          {cautious.length === 0
            ? 'A string under tension can break and whip: keep your face away from it and turn slowly.'
            : `${cautious.length === 1 ? 'Course' : 'Courses'} ${listed(cautious.map(({ number }) => number))} ${cautious.length === 1 ? 'comes' : 'come'} close to breaking. Keep your face away and turn a little at a time.`}
        </dd>
      </dl>
      {problem === null ? null : <p role="alert">{problem}</p>}
      <div className={styles['bottom']}>
        <Button look="solid" shortcut="Space" onPress={startListening}>
          Start listening
        </Button>
        <Button shortcut="H" onPress={hear}>
          Hear it
        </Button>
        <p className={`small faint ${styles['aside']}`}>Page Down starts too</p>
      </div>
      <BreakConfirmation overview={overview} lines={nearBreaking} isOpen={isAsking} onLeave={() => setAsking(false)} onGoOn={begin} />
    </div>
  );
}
