import { describe, expect, test } from 'vitest';
import type { PitchFrame } from '#shared/pitch/index.ts';
import { fretAsked, fretRows } from '../../../src-renderer/screens/retune/fret-words.ts';
import { type Fretting, hearFretted, startFretting } from '../../../src-renderer/stores/fretting.ts';
import { instrumentOf } from '../screens/wren.ts';

const open = [391.9954, 233.0819];
const octave = (hertz: number, cents: number): number => hertz * 2 ** ((1200 + cents) / 1200);

/** The fret check after these pitches were plucked, one after the other. */
function after(...pitches: readonly number[]): Fretting {
  return pitches.reduce(
    (now, hertz, index) => {
      let next = now;
      for (let since = 0.1; since < 0.8; since += 0.05) {
        const frame = { kind: 'frame', atSeconds: index + since, hertz, sigmaCents: 0.2, steady: true, sincePluckSeconds: since } as const;
        next = hearFretted(next, {
          ...frame,
          others: [],
          levelDecibels: -20,
          driftCentsPerSecond: 0,
          inharmonicity: 0,
        } satisfies PitchFrame);
      }
      return next;
    },
    startFretting(instrumentOf('ukulele-tenor-high-g', 'Wren'), open),
  );
}

describe('the fret check', () => {
  test('asks for each course open, then stopped', () => {
    expect(fretAsked(after())).toBe('Course 2: pluck it open.');
    expect(fretAsked(after(392))).toBe('Course 2: now stop it at the 12th fret, gently, and pluck.');
    expect(fretAsked(after(392, octave(392, 2)))).toBe('Course 1: pluck it open.');
  });

  test('says per course how far the 12th fret is off, and what it means', () => {
    const rows = fretRows(after(392, octave(392, 2), 233.1, octave(233.1, 15)));
    expect(rows.map(({ number, cents }) => [number, cents])).toEqual([
      [2, '2.0 c sharp'],
      [1, '15 c sharp'],
    ]);
    expect(rows[1]?.sentence).toMatch(/^Unlike the others: /u);
  });

  test('takes no fretted note for the open string, and no open string for the fretted note', () => {
    expect(after(octave(392, 0)).open).toBeNull();
    const again = after(392, 392.5);
    expect([again.pairs.length, again.course]).toEqual([0, 0]);
  });
});
