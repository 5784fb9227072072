import { cautionShare } from '#shared/tension/index.ts';
import { undershootCents } from '../../stores/undershoot.ts';
import { Switch } from '../../ui/switch.tsx';
import { clockTime } from '../../ui/time.ts';
import { figure, halves, listed } from '../../ui/words.ts';
import { breakTitle } from './break-words.ts';
import type { Line } from './lines.ts';
import { pitchWords } from './sentences.ts';
import styles from './plan-page.module.css';

/** What an aim lies beside its pitch so that the string settles onto it. `leadCents` is positive above. */
export type Lead = { readonly line: Line; readonly leadCents: number };

type Props = {
  readonly lines: readonly Line[];
  /** Those that move, in the order of turning. */
  readonly moving: readonly Line[];
  readonly leads: readonly Lead[];
  readonly leadUntil: number;
  readonly isLeadOn: boolean;
  readonly onLead: (isOn: boolean) => void;
  /** Whether lowered strings of this instrument are taken a little below first. */
  readonly isBelowFirst: boolean;
  readonly onBelowFirst: (isOn: boolean) => void;
};

/** What to know of a plan besides its board: order, lead, pull, care. */
export function PlanNotes({ lines, moving, leads, leadUntil, isLeadOn, onLead, isBelowFirst, onBelowFirst }: Props) {
  const [before, after] = [totalNewtons(lines, 'now'), totalNewtons(lines, 'after')];
  return (
    <dl className={styles['notes']}>
      <dt>Order</dt>
      <dd>
        {moving.length === 0
          ? 'By the log every course is where it should be. Start to check them.'
          : 'Loosen first, then tighten, the largest first: the neck carries least while you work.'}
      </dd>
      <dd className={styles['figure']}>{moving.map(({ number }) => number).join(', ')}</dd>
      {leads.length === 0 ? null : (
        <>
          <dt>Lead</dt>
          <dd>{leadWords(leads, leadUntil, isLeadOn)}</dd>
          <dd className={styles['figure']}>
            <Switch words={isLeadOn ? 'on' : 'off'} isOn={isLeadOn} onChange={onLead} />
          </dd>
        </>
      )}
      {moving.some(({ cents }) => cents < -undershootCents) ? (
        <>
          <dt>Pegs</dt>
          <dd>If they have play, a loosened string goes about {undershootCents} c below first, then up.</dd>
          <dd className={styles['figure']}>
            <Switch words={isBelowFirst ? 'below first' : 'straight'} isOn={isBelowFirst} onChange={onBelowFirst} />
          </dd>
        </>
      ) : null}
      {before === null || after === null ? null : (
        <>
          <dt>Pull</dt>
          <dd>All strings together. What the maker or a luthier says goes before these figures.</dd>
          <dd className={styles['figure']}>
            {figure(before) === figure(after) ? '' : `${figure(before)} → `}
            {figure(after)} N
          </dd>
        </>
      )}
      <dt>Care</dt>
      <dd>{careWords(moving)}</dd>
    </dl>
  );
}

/** All strings together, or null where the figures of one are not known. */
export const totalNewtons = (lines: readonly Line[], which: 'now' | 'after'): number | null =>
  lines.reduce<number | null>((sum, { together: { [which]: newtons } }) => (sum === null || newtons === null ? null : sum + newtons), 0);

/** Both numbers, with and without: how far beside its pitch a string is left, and how far it would drift off it. */
function leadWords(leads: readonly Lead[], leadUntil: number, isOn: boolean): string {
  const left = ({ line, leadCents }: Lead) =>
    `${halves(Math.abs(leadCents))}\u00a0c ${leadCents < 0 ? 'below' : 'above'} ${pitchWords(line.to)}`;
  const drift = ({ line, leadCents }: Lead) =>
    `course\u00a0${line.number} about ${halves(Math.abs(leadCents))}\u00a0c ${leadCents < 0 ? 'sharp' : 'flat'}`;
  const most = leads.reduce((widest, lead) => (Math.abs(lead.leadCents) > Math.abs(widest.leadCents) ? lead : widest));
  return isOn
    ? `Left ${listed(leads.map(left))}, to settle onto pitch by about ${clockTime(leadUntil)}. Without it, then: ${drift(most)}.`
    : `Without it, by ${clockTime(leadUntil)}: ${listed(leads.map(drift))}. With it, ${left(most)} at first.`;
}

function careWords(moving: readonly Line[]): string {
  const close = moving.filter(({ cents, after }) => cents > 0 && (after.breakShare ?? 0) > cautionShare);
  if (close.some(({ after }) => (after.breakShare ?? 0) >= 1)) return `${breakTitle(close)} there: that takes another string.`;
  if (close.length === 0) return 'A string under tension can break and whip: keep your face away from it and turn slowly.';
  return `${breakTitle(close)}. Keep your face away and turn a little at a time.`;
}
