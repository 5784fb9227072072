/**
 * What a peg adds to the pitch while it is turned, in cents: nothing until `fromSeconds`, then `centsPerSecond`
 * (negative = down) until `toSeconds`, then held. Passed to `pluckSound` as `pegCents`.
 * `turningPeg({ fromSeconds: 1, toSeconds: 2, centsPerSecond: -40 })(3)` → −40.
 */
export const turningPeg =
  ({ fromSeconds, toSeconds, centsPerSecond }: { fromSeconds: number; toSeconds: number; centsPerSecond: number }) =>
  (atSeconds: number) =>
    Math.max(0, Math.min(atSeconds, toSeconds) - fromSeconds) * centsPerSecond;
