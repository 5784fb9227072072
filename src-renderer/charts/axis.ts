/** The time axis that all charts of one screen share, in seconds. `log` needs `from` above 0. */
export type Axis = { readonly kind: 'linear' | 'log'; readonly from: number; readonly until: number };

/**
 * Where a moment lies along an axis: 0 at its beginning, 1 at its end, outside that for moments that it does not show. On a log axis, moments at
 * or before 0 lie at −∞. Throws RangeError for an axis without length. `shareAlong({ kind: 'linear', from: 0, until: 60 }, 15)` → 0.25.
 */
export function shareAlong({ kind, from, until }: Axis, seconds: number): number {
  if (!(until > from) || (kind === 'log' && !(from > 0))) throw new RangeError(`no ${kind} axis from ${from} until ${until}`);
  if (kind === 'linear') return (seconds - from) / (until - from);
  return seconds <= 0 ? Number.NEGATIVE_INFINITY : Math.log(seconds / from) / Math.log(until / from);
}

/** The moment at a share of an axis: `shareAlong` the other way round. */
export const momentAt = ({ kind, from, until }: Axis, share: number): number =>
  kind === 'linear' ? from + share * (until - from) : from * (until / from) ** share;
