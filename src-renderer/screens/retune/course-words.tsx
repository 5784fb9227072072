import { useStore } from 'zustand';
import { useShallow } from 'zustand/shallow';
import type { Advice } from '#shared/guidance/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import type { SpelledPitch } from '#shared/music/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { pullAt } from '../../stores/pull.ts';
import { type Retuning, retuning } from '../../stores/retuning.ts';
import { useCalm } from '../../ui/calm.ts';
import { amountWords, centsText, courseText, figure, halves } from '../../ui/words.ts';
import styles from './course-words.module.css';

type HeadProps = { readonly course: number; readonly isActive: boolean; readonly toleranceCents: number };

/** What a course is to do: its number, from and to, and – for the one being worked on – the word to obey and how far. */
export function CourseHead({ course, isActive, toleranceCents }: HeadProps) {
  const words = useCalm(
    useStore(
      retuning,
      useShallow(({ now }) => (now === null ? none : headWords(now, course, toleranceCents))),
    ),
  );
  if (isActive) {
    return (
      <div className={styles['active']}>
        <p className={`pitch ${styles['way']}`}>
          <Way from={words.from} to={words.to} />
        </p>
        <p className={styles['command']}>
          {words.number} <span className={words.hue === '' ? undefined : words.hue}>{words.command}</span>
        </p>
        <p className={styles['cents']}>{words.cents}</p>
        <p className="lead quiet">{words.amount}</p>
      </div>
    );
  }
  return (
    <div className={styles['still']}>
      <span className={`pitch ${styles['number']}`}>{words.number}</span>
      <div>
        <p className="pitch">
          <Way from={words.from} to={words.to} />
        </p>
        <p className="quiet">{words.plan}</p>
      </div>
    </div>
  );
}

const Way = ({ from, to }: { readonly from: string; readonly to: string }) =>
  from === to ? (
    to
  ) : (
    <>
      {from} <span className="faint">→</span> {to}
    </>
  );

const none = { number: '', from: '', to: '', command: '', hue: '', cents: '', amount: '', plan: '' };

function headWords(now: Retuning, course: number, toleranceCents: number): typeof none {
  const { advice, coach, live } = now;
  const base = {
    ...none,
    number: String(courseNumber(course, now.to.pitches.length)),
    from: courseText(now.from.pitches[course] ?? []),
    to: courseText(now.to.pitches[course] ?? []),
    plan: planWords(now, course),
  };
  const state = coach.strings.find((one) => one.course === course && (advice.course !== course || one.string === advice.string));
  if (advice.course !== course || state === undefined) return base;
  const togo = advice.centsToGo ?? 0;
  const sigma = state.sigmaCents ?? 0;
  const isUnclear = live?.match.kind === 'unknown';
  switch (advice.action) {
    case 'tighten':
      return {
        ...base,
        command: 'tighten',
        hue: 'below',
        cents: `${sigma > 3 ? 'about ' : ''}${centsText(togo, sigma)}`,
        amount: amountWords(togo),
      };
    case 'loosen':
      return {
        ...base,
        command: 'loosen',
        hue: 'above',
        cents: `${sigma > 3 ? 'about ' : ''}${centsText(togo, sigma)}`,
        amount: amountWords(togo),
      };
    case 'stop':
      return { ...base, command: 'stop', cents: 'loosen it', amount: 'and look at its peg' };
    case 'wait':
      if (coach.paused) return { ...base, command: 'paused', amount: 'Space goes on' };
      return {
        ...base,
        command: 'there',
        cents: togo === 0 ? 'on its aim' : `${centsText(togo, sigma)} ${togo < 0 ? 'above' : 'below'}`,
        amount: 'let it sound',
      };
    default: {
      if (isUnclear) return { ...base, command: 'pluck', cents: 'can’t tell yet', amount: `only course ${base.number}, please` };
      const far = Math.abs(togo) > toleranceCents;
      return {
        ...base,
        command: 'pluck',
        cents: far ? amountWords(togo) : '',
        amount: far ? `to ${togo < 0 ? 'loosen' : 'tighten'}` : advice.why.toLowerCase().replace(/\.$/u, ''),
      };
    }
  }
}

/** What becomes of a course that is not being worked on. */
function planWords({ coach }: Retuning, course: number): string {
  const state = coach.strings.find((one) => one.course === course);
  if (state === undefined) return '';
  if (state.skipped) return 'left as it is';
  const place = coach.queue.findIndex((index) => coach.strings[index]?.course === course);
  const togo = centsBetween(hertz(state.aimHertz), hertz(state.presentHertz));
  const isAway = Math.abs(togo) > coach.setup.toleranceCents;
  if (place === -1) return state.landedAtSeconds === null ? 'stays' : isAway ? 'drawn off, comes again' : 'there';
  if (!isAway) return 'pluck once more';
  return `then: ${togo < 0 ? 'loosen' : 'tighten'} ${amountWords(togo).replace('about ', '')}`;
}

/** What a course carries now and when wanted, and where it is. */
export function CourseTail({ course, isActive }: { readonly course: number; readonly isActive: boolean }) {
  const words = useCalm(
    useStore(
      retuning,
      useShallow(({ now }) => (now === null ? noTail : tailWords(now, course))),
    ),
  );
  return (
    <div className={isActive ? styles['tailActive'] : styles['tail']}>
      {isActive ? (
        <>
          <p className="lead">{words.pull}</p>
          <p className="quiet">{words.wanted}</p>
          {words.aim === '' ? null : (
            <>
              <p className={styles['aim']}>{words.aim}</p>
              <p className="small quiet">{words.because}</p>
            </>
          )}
          <p className={`small quiet ${styles['margins']}`}>{words.margins}</p>
        </>
      ) : (
        <>
          <p className={words.isThere ? styles['there'] : 'quiet'}>{words.where}</p>
          <p className="small quiet">{[words.pull, words.isThere ? '' : words.wanted].filter((part) => part !== '').join(', ')}</p>
        </>
      )}
    </div>
  );
}

const noTail = { pull: '', wanted: '', aim: '', because: '', margins: '', where: '', isThere: false };

function tailWords({ coach, overview, to, live, advice }: Retuning, course: number): typeof noTail {
  const state = coach.strings.find((one) => one.course === course);
  if (state === undefined) return noTail;
  const here = live?.match.kind === 'match' && live.match.course === course ? live.hertz : state.presentHertz;
  const now = pullAt(overview, course, 0, here);
  const after = pullAt(overview, course, 0, to.hertz[course]?.[0]);
  const off = centsBetween(hertz(state.presentHertz), hertz(state.aimHertz));
  const isThere = state.landedAtSeconds !== null;
  const margins = [
    after.slackIn === null ? '' : `Slack in ${halves(after.slackIn)}`,
    after.breakIn === null ? '' : `break in ${halves(after.breakIn)}`,
  ].filter((part) => part !== '');
  return {
    pull: now.newtons === null ? '' : `${figure(now.newtons, 1)} N`,
    wanted: after.newtons === null ? '' : `wanted ${figure(after.newtons, 1)} N`,
    ...(advice.course === course ? aimWords(advice, to.pitches[course] ?? [], to.pitches.length) : { aim: '', because: '' }),
    margins: margins.length === 0 ? '' : `${margins.join(', ')}.`,
    where:
      !isThere && Math.abs(off) < 0.5
        ? 'not heard yet'
        : Math.abs(off) >= 30
          ? `${amountWords(off)} ${off < 0 ? 'below' : 'above'}`
          : `${centsText(off, state.sigmaCents ?? 1)} ${off < 0 ? 'below' : 'above'} its aim`,
    isThere,
  };
}

/** Where the aim lies beside the wanted pitch, and why: `Aim 2 c below E♭4.` – `Settling adds 3, tightening course 1 takes off 1.` */
function aimWords(
  { leadCents, couplingCents, pulls }: Advice,
  wanted: readonly SpelledPitch[],
  courses: number,
): { readonly aim: string; readonly because: string } {
  const beside = (leadCents ?? 0) + (couplingCents ?? 0);
  if (Math.abs(beside) < 0.5) return { aim: '', because: '' };
  const settling = Math.abs(leadCents ?? 0) < 0.5 ? [] : [`settling ${change(-(leadCents ?? 0))}`];
  const others = pulls
    .filter(({ cents }) => Math.abs(cents) >= 0.5)
    .map(({ course, cents }) => `${cents < 0 ? 'tightening' : 'loosening'} course ${courseNumber(course, courses)} ${change(cents)}`);
  const because = [...settling, ...others].join(', ');
  return {
    aim: `Aim ${halves(Math.abs(beside))} c ${beside < 0 ? 'below' : 'above'} ${courseText(wanted)}.`,
    because: because === '' ? '' : `${because.charAt(0).toUpperCase()}${because.slice(1)}.`,
  };
}

const change = (cents: number): string => `${cents > 0 ? 'adds' : 'takes off'} ${halves(Math.abs(cents))}`;
