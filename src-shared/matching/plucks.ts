/** When a sound was plucked, by the tracker's count, on the clock of the frame; null where that was not heard. */
export const pluckedAtOf = ({
  atSeconds,
  sincePluckSeconds = null,
}: {
  readonly atSeconds: number;
  readonly sincePluckSeconds?: number | null;
}): number | null => (sincePluckSeconds === null ? null : atSeconds - sincePluckSeconds);

/** Plucks are told from one another by when they began: those within this are one, in seconds. */
export const samePluckSeconds = 0.06;
