// What carries a string besides creep, as functions of the moment: cents, positive = sharp. Magnitudes are the caller's.

/** Something that befalls a string. */
export type Event =
  /** A peg, knot or nut gives way at once. */
  | { readonly kind: 'slip'; readonly atSeconds: number; readonly cents: number }
  /** A peg turns back without slowing. */
  | { readonly kind: 'slide'; readonly fromSeconds: number; readonly untilSeconds: number; readonly centsPerHour: number }
  /** The room warms or cools evenly. */
  | { readonly kind: 'ramp'; readonly fromSeconds: number; readonly untilSeconds: number; readonly cents: number }
  /** A hard bend: a step of which a share comes back. */
  | { readonly kind: 'bend'; readonly atSeconds: number; readonly cents: number; readonly backShare: number; readonly backSeconds: number }
  /** Another peg is turned and the body gives. */
  | { readonly kind: 'coupling'; readonly atSeconds: number; readonly cents: number };

const clamp = (value: number): number => Math.min(1, Math.max(0, value));

/** What one event adds at a moment, in cents. A slip of −8 at 60 s adds 0 at 59 s and −8 from then on. */
export function eventCents(event: Event, atSeconds: number): number {
  switch (event.kind) {
    case 'slip':
    case 'coupling':
      return atSeconds >= event.atSeconds ? event.cents : 0;
    case 'slide':
      if (atSeconds <= event.fromSeconds) return 0;
      return (event.centsPerHour * (Math.min(atSeconds, event.untilSeconds) - event.fromSeconds)) / 3600;
    case 'ramp':
      return event.cents * clamp((atSeconds - event.fromSeconds) / (event.untilSeconds - event.fromSeconds));
    case 'bend':
      if (atSeconds < event.atSeconds) return 0;
      return event.cents * (1 - event.backShare * (1 - Math.exp(-(atSeconds - event.atSeconds) / event.backSeconds)));
    default:
      return event satisfies never;
  }
}
