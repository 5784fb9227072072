import { alongString } from './scale.ts';

/** How the bead on a string looks: pointed towards the aim, even and lit (within tolerance), or even and grey (which side is not known). */
export type BeadKind = 'below' | 'above' | 'within' | 'unsure';

/** Which kind of bead a reading makes, in cents from its aim. */
export function beadKind(cents: number, sigmaCents: number, toleranceCents: number): BeadKind {
  if (Math.abs(cents) <= toleranceCents) return 'within';
  if (Math.abs(cents) < 2 * sigmaCents) return 'unsure';
  return cents < 0 ? 'below' : 'above';
}

type Bead = {
  readonly cents: number;
  readonly sigmaCents: number;
  readonly kind: BeadKind;
  readonly height: number;
  readonly width: number;
  readonly middle: number;
};

const r = (value: number): string => value.toFixed(2);

/**
 * The outline of a bead as SVG path data on a board `width` px wide, its string at `middle` px. Its length is ±2σ, at least a share of its height;
 * its area stays, so that the surer it is the more it stands upright. Its middle is the reading and never shifts with certainty.
 */
export function beadPath({ cents, sigmaCents, kind, height, width, middle }: Bead): string {
  const isEven = kind === 'within' || kind === 'unsure';
  const share = isEven ? 0.88 : 0.62;
  const centre = alongString(cents) * width;
  const spread = (alongString(cents + 2 * sigmaCents) - alongString(cents - 2 * sigmaCents)) * width;
  const length = Math.max(spread, share * height);
  const tall = Math.max((share * height * height) / length, 0.45 * height);
  if (isEven) {
    const [rx, ry] = [length / 2, tall / 2];
    return `M${r(centre - rx)} ${r(middle)}a${r(rx)} ${r(ry)} 0 1 0 ${r(length)} 0a${r(rx)} ${r(ry)} 0 1 0 ${r(-length)} 0Z`;
  }
  // Drawn with its point at the left; a bead below its aim is the mirror image.
  const way = kind === 'above' ? 1 : -1;
  const x = (fromPoint: number): string => r(centre + way * (fromPoint - length / 2));
  const y = (up: number): string => r(middle - up);
  const round = Math.min(0.34 * tall + 0.12 * length, 0.41 * length);
  const [half, point, side] = [tall / 2, tall / 12, length - round];
  const bow = 0.552; // control length of a quarter ellipse drawn as a cubic
  return [
    `M${x(0)} ${y(point)}`,
    `C${x(side * 0.3)} ${y(half * 0.62)} ${x(side * 0.68)} ${y(half)} ${x(side)} ${y(half)}`,
    `C${x(side + bow * round)} ${y(half)} ${x(length)} ${y(bow * half)} ${x(length)} ${y(0)}`,
    `C${x(length)} ${y(-bow * half)} ${x(side + bow * round)} ${y(-half)} ${x(side)} ${y(-half)}`,
    `C${x(side * 0.68)} ${y(-half)} ${x(side * 0.3)} ${y(-half * 0.62)} ${x(0)} ${y(-point)}Z`,
  ].join('');
}
