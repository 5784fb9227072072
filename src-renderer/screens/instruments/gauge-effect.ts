import type { Overview } from '#shared/contract/index.ts';
import { courseScaleLength, type Instrument } from '#shared/instruments/index.ts';
import { pitchHertz } from '#shared/music/index.ts';
import { hertz, millimetres } from '#shared/units/index.ts';
import { type Pull, pullAt, pullOf, usualPull } from '../../stores/pull.ts';
import { pitchText, readPitch } from '../../ui/note-names.ts';
import { figure } from '../../ui/words.ts';
import { togetherOf } from '../judged.ts';
import { bothMargins } from '../margins.ts';
import { readNumber } from '../numbers.ts';
import { type Draft, stringIn } from './draft.ts';

/** What a string of the form pulls at its home, as it is written there; null while the line cannot be read. */
function draftPull({ instrument, stringSet }: Overview, draft: Draft, course: number, string: number, referenceHertz: number): Pull | null {
  const line = draft.courses[course]?.[string];
  const on = stringSet.courses[course];
  const scale = readNumber(draft.scaleLengthMillimetres);
  if (line === undefined || scale === null || scale <= 0) return null;
  const [written, home] = [stringIn(line, on?.strings[string]), readPitch(line.home)];
  if (written === null || home === null) return null;
  const length = on?.scaleLengthMillimetres === undefined ? millimetres(scale) : courseScaleLength(instrument, on);
  return pullOf(written, length, pitchHertz(home, hertz(referenceHertz)), instrument);
}

const forceText = ({ newtons }: Pull): string => (newtons === null ? 'not known' : `${figure(newtons, 1)} N`);

/** What a line of the form means for the string: `38.8 → 44.0 N at C4, slack in 5, break in 3½`. */
export function stringEffect(overview: Overview, draft: Draft, course: number, string: number, referenceHertz: number): string {
  const after = draftPull(overview, draft, course, string, referenceHertz);
  if (after === null) return '';
  const home = overview.stringSet.courses[course]?.home[string];
  const before = home === undefined ? null : pullAt(overview, course, string, pitchHertz(home, hertz(referenceHertz)));
  const from =
    before === null || before.newtons === null || forceText(before) === forceText(after) ? '' : `${figure(before.newtons, 1)} → `;
  const line = draft.courses[course]?.[string];
  const rated = readNumber(line?.ratedNewtons ?? '');
  const isBeyond = rated !== null && after.newtons !== null && after.newtons > rated;
  const margins = [bothMargins(after), isBeyond ? 'more than its maker rates it for' : ''].filter((words) => words !== '').join(', ');
  return `${from}${forceText(after)} at ${pitchText(readPitch(line?.home ?? '') ?? '')}${margins === '' ? '' : `, ${margins}`}`;
}

/** The pull of all strings of the form together, beside what is usual for the size; empty while a line cannot be read. */
export function totalEffect(overview: Overview, draft: Draft, referenceHertz: number): string {
  const pulls = draft.courses.flatMap((strings, course) =>
    strings.map((_, string) => draftPull(overview, draft, course, string, referenceHertz)?.newtons ?? null),
  );
  const total = togetherOf(pulls);
  return total === null ? '' : `At home: ${totalWords(total, pulls.length, overview.instrument)}.`;
}

/** A total beside the usual range of so many strings of this size: `163 N together, within the usual 114 to 206 N`. */
export function totalWords(total: number, strings: number, instrument: Instrument): string {
  const usual = usualPull(instrument);
  const words = `${figure(total)} N together`;
  if (usual === null) return words;
  const [least, most] = usual.newtons.map((one) => one * strings);
  const where = total < (least ?? 0) ? 'less than' : total > (most ?? 0) ? 'more than' : 'within';
  return `${words}, ${where} the usual ${figure(least ?? 0)} to ${figure(most ?? 0)} N`;
}
