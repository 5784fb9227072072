import { advise, type CoachEvent, start, step } from '#shared/guidance/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import { wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';
import { parsePitches } from '#shared/music/index.ts';
import type { Retuning } from '../../../../src-renderer/stores/retuning.ts';
import { instrumentOf } from '../wren.ts';

/** A tenor that goes from home to Lantern E♭, with 20:00 on the clock and no lead. */
export function wrenLed(change: Partial<Retuning> = {}): Retuning {
  const overview = instrumentOf('ukulele-tenor-high-g', 'Wren');
  const home = homePitches(overview.stringSet);
  const parsed = parsePitches('G4 Bb3 Eb4 Bb4');
  if ('notAPitch' in parsed) throw new RangeError('no pitches');
  const to = parsed.map((pitch) => [pitch]);
  const here = (pitches: typeof home) => ({ name: 'here', pitches, hertz: wantedHertz(pitches, null, hertz(440)), sameShapes: true });
  const string = { material: 'fluorocarbon', wound: false, daysSinceChange: null, linearDensityKilogramsPerMetre: null } as const;
  const coach = start({
    instrument: { scaleLengthMillimetres: 432, courses: home.map(() => ({ strings: [string] })) },
    present: here(home).hertz,
    wanted: here(to).hertz,
    toleranceCents: 3,
    atSeconds: 0,
  });
  const begun = {
    id: 'one',
    overview,
    from: here(home),
    to: here(to),
    whole: here(to),
    startedAt: 0,
    finishedAt: null,
    untilSeconds: 1800,
  };
  return { ...begun, coach, advice: advise(coach), live: null, reached: [], strum: null, renewed: [], expected: [], ...change };
}

/** The retune after one event. */
export function after(now: Retuning, event: CoachEvent): Retuning {
  const { state, advice } = step(now.coach, event);
  return { ...now, coach: state, advice };
}

/** The retune after a course has sounded, steadily, for so many seconds at so many cents from its aim. */
export function sounding(now: Retuning, course: number, cents: number, fromSeconds: number, seconds: number): Retuning {
  let next = now;
  const aim = now.coach.strings[course]?.aimHertz ?? Number.NaN;
  for (let at = fromSeconds; at < fromSeconds + seconds; at += 0.05) {
    const reading = { course, string: 0, hertz: aim * 2 ** (cents / 1200), sigmaCents: 0.2, steady: true };
    next = after(next, { kind: 'reading', atSeconds: at, ...reading });
    if (next.advice.course !== course) break;
  }
  return next;
}
