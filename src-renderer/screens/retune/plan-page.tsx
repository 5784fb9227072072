import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { Output, Overview, Settings } from '#shared/contract/index.ts';
import { openChord } from '#shared/music/index.ts';
import { confirmShare } from '#shared/tension/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useHost } from '../../stores/host.tsx';
import { useLibrary } from '../../stores/library.ts';
import type { Way } from '../../stores/plan.ts';
import { beginRetune } from '../../stores/retuning.ts';
import { hearStrum } from '../../stores/session.ts';
import { soundFor } from '../../stores/sound-choice.ts';
import { takeBackLast, useUndo } from '../../stores/undo.ts';
import { useKeepPlay } from '../../stores/undershoot.ts';
import { Button } from '../../ui/button.tsx';
import { useKeys, useUndoKey } from '../../ui/keys.ts';
import { UndoLine } from '../../ui/undo-line.tsx';
import { asSeen } from '../stack.ts';
import { BreakConfirmation } from './break-confirmation.tsx';
import { capoWords, withCapo } from './capo.ts';
import { ChooseTuning } from './choose-tuning.tsx';
import { leaving } from './leaving.ts';
import { linesOf } from './lines.ts';
import { PlanBoard } from './plan-board.tsx';
import { type Lead, PlanNotes, totalNewtons } from './plan-notes.tsx';
import { PlanTime } from './plan-time.tsx';
import { usePlans } from './use-plans.ts';
import styles from './plan-page.module.css';

type Props = {
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly tuning: Tuning | null;
  readonly settings: Settings;
  readonly way: Way;
  readonly now: number;
  readonly log: Output<'log.read'>;
};

/** A lead smaller than this is not worth a word, in cents. */
const leastLeadCents = 0.75;
const rememberedLead = 'stillstring.lead';

/** What will be done, before a peg is touched. */
export function PlanPage({ overview, tunings, tuning, settings, way, now, log }: Props) {
  const host = useHost();
  const navigate = useNavigate();
  const { data: status } = useLibrary('library.status', {});
  const [isAsking, setAsking] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const [isLeadOn, setLeadOn] = useState(() => localStorage.getItem(rememberedLead) === 'on');
  const keepPlay = useKeepPlay();
  const { from, to, present } = way;
  const plans = usePlans({ overview, tunings, tuning, settings, log, now });
  const lines = linesOf(overview, from, to, present, settings.toleranceCents);
  const moving = lines.filter(({ turn }) => turn !== null).sort((a, b) => (a.turn ?? 0) - (b.turn ?? 0));
  const nearBreaking = moving.filter(({ cents, after }) => cents > 0 && (after.breakShare ?? 0) > confirmShare);
  const [before, after] = [totalNewtons(lines, 'now'), totalNewtons(lines, 'after')];
  const leads = moving.flatMap((line): Lead[] => {
    const leadCents = plans.known?.withLead.coach.strings.find(({ course }) => course === line.course)?.leadCents ?? 0;
    return Math.abs(leadCents) < leastLeadCents ? [] : [{ line, leadCents }];
  });

  /** Begins as planned, or to a tuning in whose stead the library's is only partly reached. */
  const begin = (partly?: Tuning) => {
    setAsking(false);
    const planned = partly === undefined ? (plans.known ?? plans.make()) : plans.make(partly);
    if (planned === null) return;
    beginRetune({
      host,
      overview,
      tuning,
      plan: isLeadOn ? planned.withLead : planned.withoutLead,
      settings,
      until: planned.leadUntil,
      isTouchUp: false,
      sound: soundFor(overview, settings, status),
    }).catch((fault: unknown) => setProblem(fault instanceof Error ? fault.message : String(fault)));
  };
  const startListening = () => (nearBreaking.length > 0 ? setAsking(true) : begin());
  const close = nearBreaking.map(({ course }) => course);
  const others = moving.filter(({ course }) => !close.includes(course));
  const beginOthers = () => begin(leaving(way, close, overview.stringSet, settings.referenceHertz));
  const capo = isAsking ? withCapo(overview, way, settings.referenceHertz) : null;
  const ask = () => void navigate({ to: '/retune', search: { on: overview.instrument.id, open: 'which' } });
  const hear = () => hearStrum(to.hertz.flat());
  const takeLead = (isOn: boolean) => {
    localStorage.setItem(rememberedLead, isOn ? 'on' : 'off');
    setLeadOn(isOn);
  };
  const undo = useUndo();
  useUndoKey(() => void takeBackLast());
  useKeys({ ' ': startListening, PageDown: startListening, h: hear, w: ask });

  const chord = openChord(to.pitches.flat());
  return (
    <div className={styles['page']}>
      <div className={styles['title']}>
        <div>
          <div className={styles['named']}>
            <h1>{to.name}</h1>
            <ChooseTuning overview={overview} tunings={tunings} tuning={tuning} />
          </div>
          <p className="quiet">{chord === null ? 'Open courses make no chord with a plain name.' : `Open courses make ${chord}.`}</p>
        </div>
        <PlanTime overview={overview} settings={settings} log={log} moving={moving} now={now} />
      </div>
      <PlanBoard lines={asSeen(lines, overview.instrument)} />
      <PlanNotes
        lines={lines}
        moving={moving}
        leads={leads}
        leadUntil={plans.known?.leadUntil ?? now}
        isLeadOn={isLeadOn}
        onLead={takeLead}
        isBelowFirst={overview.instrument.pegsHavePlay}
        onBelowFirst={(isOn) => keepPlay(overview, isOn)}
      />
      {problem === null ? null : <p role="alert">{problem}</p>}
      <div className={styles['bottom']}>
        <Button look="solid" shortcut="Space" onPress={startListening}>
          Start listening
        </Button>
        <Button shortcut="H" onPress={hear}>
          Hear it
        </Button>
        <Button look="plain" shortcut="W" onPress={ask}>
          What am I in?
        </Button>
        <div className={styles['aside']}>
          {undo.last === null && undo.problem === null ? (
            <p className="small faint">Page Down starts too</p>
          ) : (
            <UndoLine last={undo.last} problem={undo.problem} onUndo={() => void takeBackLast()} />
          )}
        </div>
      </div>
      <BreakConfirmation
        overview={overview}
        lines={nearBreaking}
        pull={before === null || after === null ? null : { now: before, after }}
        others={others.map(({ number }) => number)}
        capo={capo === null ? null : capoWords(capo)}
        isOpen={isAsking}
        onLeave={() => setAsking(false)}
        onGoOn={() => begin()}
        onOthers={beginOthers}
      />
    </div>
  );
}
