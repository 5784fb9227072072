import type { Assessment } from '#shared/settling/index.ts';
import { horizonSeconds } from '../../stores/settling.ts';
import { when } from '../../ui/time.ts';
import { courseText, figure, listed, ordinal } from '../../ui/words.ts';
import { isForeseen, type Row, type StringRow } from './rows.ts';

/** The verdicts as they are shown. */
export const verdictWords = { settling: 'Settling', holding: 'Holding', slipping: 'Slipping', unheard: 'Unheard' } as const;

/** Of more slips only the latest are told. */
const mostSlips = 3;

/** Less than this is not worth a word, in cents. */
const stillCents = 0.5;

/** `3 c`, never parted at the end of a line. */
const amount = (cents: number): string => `${figure(Math.abs(cents))}\u00a0c`;
const side = (cents: number): string => (cents < 0 ? 'below' : 'above');
const upper = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
/** `3 c below`, or what is said of a string within half a cent. */
const placeOf = (cents: number, onPitch: string): string => (Math.abs(cents) < stillCents ? onPitch : `${amount(cents)} ${side(cents)}`);
const direction = (cents: number): string => (cents < 0 ? 'flat' : 'sharp');
const isStill = ({ driftCents }: Assessment): boolean => Math.abs(driftCents) < stillCents;

/** The moment in words: `20:08`, or the day where it is another. All in seconds of the epoch. */
export const at = (seconds: number, now: number): string => when(seconds * 1000, now * 1000);

/** The verdict's reason in a few words, for under the verdict; of a double course it names the string that leads. */
export const shortReason = ({ strings: [leading, ...others] }: Row, now: number): string =>
  others.length === 0 ? reasonOf(leading, now) : `${ordinal(leading.string)} string: ${reasonOf(leading, now)}`;

function reasonOf({ assessment, movedAt, since }: StringRow, now: number): string {
  const { verdict, slips, driftCents, holdsFromSeconds, forecast } = assessment;
  if (verdict === 'unheard') return movedAt === null ? `since ${at(since, now)}` : `turned ${at(movedAt, now)}`;
  if (verdict === 'slipping') {
    if (slips.length === 0) return 'sliding flat';
    return slips.length === 1 ? `one step ${(slips[0]?.cents ?? 0) < 0 ? 'down' : 'up'}` : 'in steps';
  }
  if (verdict === 'holding') return isStill(assessment) ? 'still' : `going ${direction(driftCents)}, almost still`;
  const isSteady = holdsFromSeconds !== null && holdsFromSeconds <= now;
  return isSteady ? `still, ${amount(forecast(now).cents)} ${side(forecast(now).cents)}` : `creeping ${direction(driftCents)}`;
}

/** What a verdict means, with times of day; `strong` is what to do or to count on, or null. */
export type Meaning = { readonly plain: string; readonly strong: string | null };

type Facts = { readonly now: number; readonly toleranceCents: number };

/** What a course's verdict means; of a double course, what its leading string does and where the other one is. */
export function meaningOf(row: Row, facts: Facts): Meaning {
  const { plain, strong } = leadingMeaning(row, facts);
  const others = row.strings.slice(1).filter(({ assessment }) => assessment.verdict !== 'unheard');
  const places = others.map(
    ({ string, assessment }) => `${upper(ordinal(string))} string ${placeOf(assessment.forecast(facts.now).cents, 'on pitch')}.`,
  );
  return { plain: [plain, ...places].join(' '), strong };
}

function leadingMeaning(row: Row, { now, toleranceCents }: Facts): Meaning {
  const [leading] = row.strings;
  if (row.verdict === 'unheard') return unheardMeaning(leading, now);
  if (row.verdict === 'slipping') return slippingMeaning(leading.assessment, now);
  const name = courseText(row.pitches.slice(leading.string, leading.string + 1));
  const plain = [whereItIs(leading, name, now), whereItGoes(leading.assessment, name, now)].join(' ');
  return { plain, strong: row.verdict === 'holding' ? null : whenItHolds(leading.assessment, now, toleranceCents) };
}

function unheardMeaning({ assessment, movedAt, since }: StringRow, now: number): Meaning {
  const after = movedAt === null ? `Not heard since ${at(since, now)}.` : 'Not heard since its peg was turned.';
  if (!isForeseen(assessment, now)) return { plain: `${after} Too long ago to tell where it is.`, strong: null };
  const { cents, low, high } = assessment.forecast(now);
  const doubt = Math.max(1, Math.ceil((high - low) / 2));
  return { plain: `${after} Expected ${placeOf(cents, 'on pitch')}, give or take ${amount(doubt)}.`, strong: null };
}

function slippingMeaning({ slips, keepsSlipping, forecast, why }: Assessment, now: number): Meaning {
  if (slips.length === 0) return { plain: `${upper(why)}.`, strong: null };
  const steps = slips
    .slice(-mostSlips)
    .map(({ cents, atSeconds }) => `${cents < 0 ? 'down' : 'up'} ${amount(cents)} by ${at(atSeconds, now)}`);
  const reason = keepsSlipping ? 'Creep would slow down.' : 'Creep makes no steps.';
  return {
    plain: `${upper(listed(steps))}, now ${placeOf(forecast(now).cents, 'on pitch')}. ${reason}`,
    strong: null,
  };
}

/** Where it is, and when it came past its pitch. */
function whereItIs(string: StringRow, name: string, now: number): string {
  const { forecast } = string.assessment;
  const cents = forecast(now).cents;
  const place = placeOf(cents, `on ${name}`);
  const first = string.heard[0];
  const begin = first === undefined ? null : forecast(first.atSeconds).cents;
  if (first !== undefined && begin !== null && Math.abs(begin) >= 2 * stillCents && Math.abs(cents) >= stillCents && begin * cents < 0) {
    return `Passed ${name} at ${at(crossing(forecast, first.atSeconds, now), now)}, now ${place}.`;
  }
  return `Now ${place}.`;
}

function whereItGoes({ forecast, driftCents }: Assessment, name: string, now: number): string {
  const end = now + horizonSeconds;
  const cents = forecast(now).cents;
  if (Math.abs(driftCents) < stillCents) return 'Almost still.';
  const until = `${amount(driftCents)} ${driftCents < 0 ? 'flatter' : 'sharper'} by ${at(end, now)}`;
  const reaches = Math.abs(cents) >= stillCents && forecast(end).cents * cents < 0;
  return reaches ? `Reaches ${name} at about ${at(crossing(forecast, now, end), now)}, ${until}.` : `${upper(until)}.`;
}

function whenItHolds({ holdsFromSeconds, forecast }: Assessment, now: number, toleranceCents: number): string {
  if (holdsFromSeconds === null) return 'Not steady within 30 days.';
  if (holdsFromSeconds <= now) return 'A touch-up now would hold.';
  const time = at(holdsFromSeconds, now);
  const cents = forecast(holdsFromSeconds).cents;
  return Math.abs(cents) <= toleranceCents ? `Holds from about ${time}.` : `A touch-up from about ${time} on would hold.`;
}

/** When a forecast goes through zero between two moments on either side of it, to the second, by bisection. */
function crossing(forecast: Assessment['forecast'], from: number, until: number): number {
  const begin = Math.sign(forecast(from).cents);
  let [early, late] = [from, until];
  while (late - early > 1) {
    const middle = (early + late) / 2;
    if (Math.sign(forecast(middle).cents) === begin) early = middle;
    else late = middle;
  }
  return late;
}
