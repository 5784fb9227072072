import type { Overview } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { lastHeard } from '#shared/log/index.ts';
import type { Verdict } from '#shared/settling/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import type { StringVerdict } from '../../stores/settling.ts';
import { when } from '../../ui/time.ts';
import { capital, listed } from '../../ui/words.ts';
import { inLetters } from '../numbers.ts';

/** How a whole instrument stands: the verdict that asks for most, and the reason in a few words. */
export type Standing = { readonly verdict: Verdict; readonly reason: string };

/** From what asks for most to what asks for nothing. */
const byNeed: readonly Verdict[] = ['slipping', 'settling', 'unheard', 'holding'];

/** Place in the order in which instruments need the player; one not yet judged comes last. */
export const needOf = (standing: Standing | null): number => (standing === null ? byNeed.length : byNeed.indexOf(standing.verdict));

/** An instrument's standing from its strings' verdicts at `now` (epoch milliseconds); `wanted` is what its strings are to sound tonight, in hertz. */
export function standingOf(
  { stringSet, lastReadings }: Overview,
  verdicts: readonly StringVerdict[],
  wanted: readonly (readonly number[])[],
  now: number,
): Standing {
  const verdict = byNeed.find((one) => verdicts.some(({ assessment }) => assessment.verdict === one)) ?? 'unheard';
  const concerned = verdicts.filter(({ assessment }) => assessment.verdict === verdict);
  const heardAt = lastReadings.reduce<number | null>((latest, { at }) => (latest === null || at > latest ? at : latest), null);
  if (heardAt === null) return { verdict: 'unheard', reason: 'never yet' };
  const heard = `heard ${when(heardAt, now)}`;
  if (verdict === 'holding') return { verdict, reason: `${concerned.length} of ${verdicts.length}, ${heard}` };
  if (verdict === 'unheard' && concerned.length === verdicts.length) return { verdict, reason: `since ${when(heardAt, now)}` };
  const numbers = [...new Set(concerned.map(({ course }) => courseNumber(course, stringSet.courses.length)))];
  const courses = `${numbers.length === 1 ? 'course' : 'courses'} ${listed(numbers)}`;
  // Where it was last heard says nothing of where it was turned to.
  if (verdict === 'unheard') return { verdict, reason: `${courses}, since the retune` };
  if (verdict === 'settling') {
    const holdsFrom = concerned.map(({ assessment }) => assessment.holdsFromSeconds);
    const latest = holdsFrom.includes(null) ? null : Math.max(...holdsFrom.map((seconds) => seconds ?? 0)) * 1000;
    if (latest !== null && latest > now) return { verdict, reason: `${courses}, holds from ${when(latest, now)}` };
  }
  const [first] = concerned;
  const last = first === undefined ? null : lastHeard(lastReadings, first.course, first.string);
  const pitch = first === undefined ? undefined : wanted[first.course]?.[first.string];
  const off = numbers.length === 1 && last !== null && pitch !== undefined ? Math.round(centsBetween(hertz(last.hertz), hertz(pitch))) : 0;
  return { verdict, reason: [courses, ...(off === 0 ? [] : [`${Math.abs(off)} c ${off < 0 ? 'flat' : 'sharp'}`]), heard].join(', ') };
}

/** What the overview says first, from each instrument's name and standing. */
export function titleOf(instruments: readonly { readonly name: string; readonly standing: Standing | null }[]): string {
  if (instruments.some(({ standing }) => standing === null)) return 'Instruments';
  for (const verdict of byNeed) {
    const names = instruments.filter(({ standing }) => standing?.verdict === verdict).map(({ name }) => name);
    if (names.length === 0) continue;
    if (verdict === 'holding') return names.length === 1 ? `${names.join('')} holds` : `All ${inLetters(names.length)} hold`;
    const who = names.length > 3 ? `${capital(inLetters(names.length))} instruments` : listed(names);
    if (verdict === 'unheard')
      return `Pluck ${names.length > 3 ? who.toLowerCase() : who} to hear how ${names.length === 1 ? 'it holds' : 'they hold'}`;
    return `${who} ${names.length === 1 ? 'is' : 'are'} ${verdict}`;
  }
  return 'Instruments';
}

/** The verdict as a word on its own. */
export const verdictWord = (verdict: Verdict): string => capital(verdict);
