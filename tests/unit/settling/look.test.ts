import { describe, expect, test } from 'vitest';
import { type Hardware, type Slipping, whereToLook } from '#shared/settling/index.ts';
import { nylon } from './log.ts';

const friction: Hardware = { pegs: 'friction', bridge: 'tie' };
const down = [{ atSeconds: 100, cents: -8 }];
const up = [{ atSeconds: 100, cents: 8 }];
const look = (some: Partial<Slipping>) =>
  whereToLook({ hardware: friction, string: nylon, slips: down, isSliding: false, lastTurnCents: 200, ...some });
const places = (some: Partial<Slipping>) => look(some).map(({ place }) => place);

// Common practice among players and repairers.
describe('where to look on a slipping string', () => {
  test('with friction pegs the peg screw first, then the tie', () => {
    expect(places({}).slice(0, 2)).toEqual(['peg screw', 'bridge tie']);
    expect(places({ slips: [], isSliding: true })[0]).toBe('peg screw');
  });

  test('a string that slipped in earlier retunes, and stands now, is not said to slide', () => {
    const reasons = (isSliding: boolean) => look({ slips: [], isSliding }).flatMap(({ because }) => because);
    expect(reasons(true)).toContain('a steady slide is a peg turning back');
    expect(reasons(false)).not.toContain('a steady slide is a peg turning back');
    expect(places({ slips: [], isSliding: false })).toContain('nut slot');
  });

  test('a geared peg does not run back: tie and windings come before it', () => {
    const geared = places({ hardware: { pegs: 'geared', bridge: 'tie' } });
    expect(geared[0]).toBe('bridge tie');
    expect(geared).not.toContain('peg screw');
    expect(geared.indexOf('peg gear')).toBeGreaterThan(geared.indexOf('peg windings'));
  });

  test('a planetary peg may turn in the headstock', () => {
    expect(places({ hardware: { pegs: 'planetary', bridge: 'slot' } })[0]).toBe('peg housing');
  });

  test('of a new string the tie or knot comes first: it draws tight', () => {
    const fresh = { ...nylon, daysSinceChange: 1 };
    expect(places({ string: fresh })[0]).toBe('bridge tie');
    expect(places({ string: fresh, hardware: { pegs: 'friction', bridge: 'slot' } })).toContain('bridge knot');
  });

  test('a jump up after tightening is the nut letting go', () => {
    const [first] = look({ slips: up });
    expect(first!.place).toBe('nut slot');
    expect(first!.because[0]).toMatch(/^it jumped up/);
  });

  test('a lowered string caught in the nut lets go flat: the nut moves ahead', () => {
    const rank = (lastTurnCents: number) => places({ lastTurnCents }).indexOf('nut slot');
    expect(rank(-200)).toBeLessThan(rank(200));
  });

  test('a slide is never the nut, and a steel string has no knot', () => {
    expect(places({ slips: [], isSliding: true })).not.toContain('nut slot');
    const steel = places({ string: { ...nylon, material: 'steel' } });
    expect(steel).toContain('ball end');
    expect(steel.some((place) => place === 'bridge tie' || place === 'bridge knot')).toBe(false);
  });

  test('where the hardware is not known the screw comes first, and every place has its reason', () => {
    const unknown = look({ hardware: { pegs: null, bridge: null } });
    expect(unknown[0]!.place).toBe('peg screw');
    expect(unknown.every(({ because }) => because.length > 0)).toBe(true);
  });
});
