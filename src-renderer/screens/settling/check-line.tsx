import { useEffect } from 'react';
import { useStore } from 'zustand';
import { useShallow } from 'zustand/shallow';
import { courseNumber } from '#shared/instruments/index.ts';
import { type Checking, checkBy, checking, endCheck } from '../../stores/checking.ts';
import { session } from '../../stores/session.ts';
import { Button } from '../../ui/button.tsx';
import { useKeys } from '../../ui/keys.ts';
import { TwoWay } from '../../ui/two-way.tsx';
import { listed } from '../../ui/words.ts';
import styles from './check-line.module.css';

const ways = [
  { value: 'plucks', words: 'One by one' },
  { value: 'strum', words: 'One strum' },
] as const;

/** The check under way: what to play, what was read, and the way out. Leaving the screen ends it. */
export function CheckLine() {
  const way = useStore(checking, ({ now }) => now?.way ?? 'plucks');
  const words = useStore(
    checking,
    useShallow(({ now }) => (now === null ? { strong: '', rest: '' } : checkWords(now))),
  );
  const trouble = useStore(session, ({ snapshot }) =>
    snapshot === null || ['open', 'asking'].includes(snapshot.state.kind) ? null : snapshot.state.sentence,
  );
  useEffect(() => endCheck, []);
  useKeys({ Escape: endCheck, Enter: endCheck });
  return (
    <div className={styles['line']}>
      <output className="lead">
        <strong>{trouble ?? words.strong}</strong> {words.rest}
      </output>
      <TwoWay label="How the strings are played" options={ways} value={way} onChange={checkBy} />
      <Button look="solid" shortcut="Esc" onPress={endCheck}>
        Done
      </Button>
    </div>
  );
}

function checkWords({ way, read, tuning, unclear, check }: Checking): { readonly strong: string; readonly rest: string } {
  const total = tuning.pitches.length;
  const heard = new Set(read.map(({ course }) => course));
  const numbers = (courses: Iterable<number>) => listed([...courses].sort((a, b) => a - b).map((course) => courseNumber(course, total)));
  const [left] = unclear;
  if (left !== undefined)
    return { strong: `Can’t tell ${numbers(unclear)} from the strum:`, rest: `pluck course ${courseNumber(left, total)} by itself.` };
  const [asked] = check.asked;
  const alike = check.asked.length > 1 ? `${numbers(check.asked)} sound alike here, so each is asked for by name.` : '';
  if (asked !== undefined) return { strong: `Pluck course ${courseNumber(asked, total)}.`, rest: alike };
  if (heard.size === total) return { strong: 'All courses heard.', rest: 'Play them again, or press Done.' };
  const rest = heard.size === 0 ? '' : `Heard ${numbers(heard)}.`;
  return { strong: way === 'strum' ? 'Strum the open strings once and let them ring.' : 'Pluck the open strings, in any order.', rest };
}
