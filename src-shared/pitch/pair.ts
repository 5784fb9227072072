/** Samples averaged into one after the sound has been turned down to 0 Hz. */
const blockSamples = 96;
const steps = 25;
const fastestDecay = 40;
/** Distances tried between the two, in parts of one over the length. */
const distances = [0.2, 0.35, 0.5, 0.7, 1, 1.4, 1.9, 2.5];
const shares = [0.5, 0.3, 0.7, 0.1, 0.9];
/** Of these starts the best are followed to their end. */
const startsFollowed = 3;

/** Two sinusoids close together: frequencies in rising order, their standard errors and their amplitudes. */
export type Pair = {
  readonly hertz: readonly [number, number];
  readonly sigmaHertz: readonly [number, number];
  readonly amplitudes: readonly [number, number];
  /** How many times better two explain the sound than one does, per unknown and over what is left. */
  readonly gain: number;
};

type Slow = { readonly real: Float64Array; readonly imaginary: Float64Array; readonly stepSeconds: number };
/** Frequency from the middle (rad/s) and decay (1/s) of each line. */
type Unknowns = readonly number[];

/** Blocks under raised cosines that overlap by half, so that nothing far away is folded in. */
const turnedDown = (samples: Float64Array, hertz: number, rateHertz: number): Slow => {
  const count = Math.floor(samples.length / blockSamples) - 1;
  const real = new Float64Array(count);
  const imaginary = new Float64Array(count);
  const turn = (2 * Math.PI * hertz) / rateHertz;
  for (let index = 0; index < (count + 1) * blockSamples; index++) {
    const block = Math.floor(index / blockSamples);
    const later = Math.sin((0.5 * Math.PI * (index + 0.5 - block * blockSamples)) / blockSamples) ** 2;
    const value = (samples[index] ?? 0) / blockSamples;
    const [valueReal, valueImaginary] = [value * Math.cos(turn * index), -value * Math.sin(turn * index)];
    if (block < count) {
      real[block] = (real[block] ?? 0) + later * valueReal;
      imaginary[block] = (imaginary[block] ?? 0) + later * valueImaginary;
    }
    if (block > 0) {
      real[block - 1] = (real[block - 1] ?? 0) + (1 - later) * valueReal;
      imaginary[block - 1] = (imaginary[block - 1] ?? 0) + (1 - later) * valueImaginary;
    }
  }
  return { real, imaginary, stepSeconds: blockSamples / rateHertz };
};
/** Neighbouring blocks share a sixth of their noise: near 0 Hz its density is so many times its variance. */
const sharedNoise = 4 / 3;

/** Solves a small symmetric positive system by elimination; false where it is singular. `right` becomes the solution. */
const solve = (matrix: number[][], right: number[]): boolean => {
  const size = right.length;
  for (let pivot = 0; pivot < size; pivot++) {
    const row = matrix[pivot] ?? [];
    const head = row[pivot] ?? 0;
    if (!(head > 1e-300)) return false;
    for (let below = 0; below < size; below++) {
      if (below === pivot) continue;
      const other = matrix[below] ?? [];
      const factor = (other[pivot] ?? 0) / head;
      for (let column = pivot; column < size; column++) other[column] = (other[column] ?? 0) - factor * (row[column] ?? 0);
      right[below] = (right[below] ?? 0) - factor * (right[pivot] ?? 0);
    }
  }
  for (let index = 0; index < size; index++) right[index] = (right[index] ?? 0) / (matrix[index]?.[index] ?? 1);
  return true;
};

type Vector = { real: Float64Array; imaginary: Float64Array };
const dot = (left: Vector, right: Vector): [number, number] => {
  let real = 0;
  let imaginary = 0;
  for (let index = 0; index < left.real.length; index++) {
    const [a, b, c, d] = [left.real[index] ?? 0, left.imaginary[index] ?? 0, right.real[index] ?? 0, right.imaginary[index] ?? 0];
    real += a * c + b * d;
    imaginary += a * d - b * c;
  }
  return [real, imaginary];
};
const subtract = (from: Vector, what: Vector, [real, imaginary]: readonly [number, number]) => {
  for (let index = 0; index < from.real.length; index++) {
    const [a, b] = [what.real[index] ?? 0, what.imaginary[index] ?? 0];
    from.real[index] = (from.real[index] ?? 0) - (real * a - imaginary * b);
    from.imaginary[index] = (from.imaginary[index] ?? 0) - (real * b + imaginary * a);
  }
};

/** The lines of given unknowns with amplitude 1 in the middle, made orthonormal one after the other, and what they leave of the sound. */
const project = (slow: Slow, unknowns: Unknowns) => {
  const count = slow.real.length;
  const lines: Vector[] = [];
  const basis: Vector[] = [];
  const rest: Vector = { real: slow.real.slice(), imaginary: slow.imaginary.slice() };
  for (let line = 0; 2 * line < unknowns.length; line++) {
    const [turn = 0, decay = 0] = unknowns.slice(2 * line);
    const made = { real: new Float64Array(count), imaginary: new Float64Array(count) };
    for (let index = 0; index < count; index++) {
      const at = (index + 0.5 - count / 2) * slow.stepSeconds;
      made.real[index] = Math.exp(-decay * at) * Math.cos(turn * at);
      made.imaginary[index] = Math.exp(-decay * at) * Math.sin(turn * at);
    }
    const direction = { real: made.real.slice(), imaginary: made.imaginary.slice() };
    for (const other of basis) subtract(direction, other, dot(other, direction));
    const length = Math.sqrt(dot(direction, direction)[0]) || 1e-300;
    direction.real.forEach((value, index) => (direction.real[index] = value / length));
    direction.imaginary.forEach((value, index) => (direction.imaginary[index] = value / length));
    subtract(rest, direction, dot(direction, rest));
    lines.push(made);
    basis.push(direction);
  }
  return { lines, basis, rest, left: dot(rest, rest)[0] };
};

type Projection = ReturnType<typeof project>;

/** Complex amplitudes of the lines: least squares by their normal equations (two at most). */
const amplitudesOf = ({ lines }: Projection, slow: Slow): [number, number][] => {
  const [one, two] = lines;
  if (one === undefined) return [];
  const [first] = dot(one, one);
  const withOne = dot(one, slow);
  if (two === undefined) return [[withOne[0] / first, withOne[1] / first]];
  const [second] = dot(two, two);
  const withTwo = dot(two, slow);
  const [crossReal, crossImaginary] = dot(one, two);
  const determinant = first * second - crossReal ** 2 - crossImaginary ** 2 || 1e-300;
  return [
    [
      (second * withOne[0] - (crossReal * withTwo[0] - crossImaginary * withTwo[1])) / determinant,
      (second * withOne[1] - (crossReal * withTwo[1] + crossImaginary * withTwo[0])) / determinant,
    ],
    [
      (first * withTwo[0] - (crossReal * withOne[0] + crossImaginary * withOne[1])) / determinant,
      (first * withTwo[1] - (crossReal * withOne[1] - crossImaginary * withOne[0])) / determinant,
    ],
  ];
};

/** Normal matrix and gradient in the unknowns, with what the amplitudes can make up for taken away. */
const slopesOf = (slow: Slow, projection: Projection, amplitudes: readonly (readonly [number, number])[]) => {
  const count = slow.real.length;
  const slopes = projection.lines.flatMap((line, which) => {
    const [real, imaginary] = amplitudes[which] ?? [0, 0];
    const byTurn = { real: new Float64Array(count), imaginary: new Float64Array(count) };
    const byDecay = { real: new Float64Array(count), imaginary: new Float64Array(count) };
    for (let index = 0; index < count; index++) {
      const at = (index + 0.5 - count / 2) * slow.stepSeconds;
      const [a, b] = [line.real[index] ?? 0, line.imaginary[index] ?? 0];
      const [valueReal, valueImaginary] = [at * (real * a - imaginary * b), at * (real * b + imaginary * a)];
      byTurn.real[index] = -valueImaginary;
      byTurn.imaginary[index] = valueReal;
      byDecay.real[index] = -valueReal;
      byDecay.imaginary[index] = -valueImaginary;
    }
    return [byTurn, byDecay];
  });
  for (const slope of slopes) for (const direction of projection.basis) subtract(slope, direction, dot(direction, slope));
  return {
    matrix: slopes.map((left) => slopes.map((right) => dot(left, right)[0])),
    gradient: slopes.map((slope) => dot(slope, projection.rest)[0]),
  };
};

/** Damped least squares over the unknowns, the amplitudes projected out. */
const fit = (slow: Slow, start: Unknowns) => {
  let unknowns = start;
  let projection = project(slow, unknowns);
  let damping = 1e-2;
  for (let step = 0; step < steps && damping < 1e6; step++) {
    const { matrix, gradient } = slopesOf(slow, projection, amplitudesOf(projection, slow));
    const damped = matrix.map((row, index) => row.map((value, column) => (index === column ? value * (1 + damping) : value)));
    if (!solve(damped, gradient)) break;
    const next = unknowns.map((value, index) => value + (gradient[index] ?? 0));
    const allowed = next.every((value, index) => index % 2 === 0 || Math.abs(value) < fastestDecay);
    const tried = allowed ? project(slow, next) : null;
    if (tried === null || !(tried.left < projection.left)) {
      damping *= 8;
      continue;
    }
    const done = projection.left - tried.left < 1e-7 * projection.left;
    [unknowns, projection] = [next, tried];
    damping /= 5;
    if (done) break;
  }
  return { unknowns, projection };
};

/**
 * Two damped sinusoids near `hertz` where nothing else sounds, closer together than a spectrum can show: least squares for frequencies and
 * decays with the amplitudes projected out (G. Golub and V. Pereyra, SIAM J. Numer. Anal. 10, 1973; steps by D. Marquardt, SIAM J. Appl.
 * Math. 11, 1963), the errors from the same equations. Null where the equations have no solution.
 */
export const fitPair = (samples: Float64Array, hertz: number, rateHertz: number): Pair | null => {
  const slow = turnedDown(samples, hertz, rateHertz);
  const count = slow.real.length;
  const one = fit(slow, [0, 2]);
  const [middle = 0, decay = 0] = one.unknowns;
  const bin = (2 * Math.PI) / (count * slow.stepSeconds);
  const starts = distances
    .flatMap((distance) => shares.map((share) => [middle - share * distance * bin, decay, middle + (1 - share) * distance * bin, decay]))
    .map((start) => ({ start, left: project(slow, start).left }))
    .sort((left, right) => left.left - right.left);
  const ends = starts.slice(0, startsFollowed).map(({ start }) => fit(slow, start));
  const [two] = ends.sort((left, right) => left.projection.left - right.projection.left);
  if (two === undefined) return null;
  const { unknowns, projection } = two;
  const amplitudes = amplitudesOf(projection, slow);
  const { matrix } = slopesOf(slow, projection, amplitudes);
  const variance = (sharedNoise * projection.left) / Math.max(1, count - 4) / 2;
  const sigmas: number[] = [];
  for (const unknown of [0, 2]) {
    const column = [0, 1, 2, 3].map((index) => (index === unknown ? 1 : 0));
    if (
      !solve(
        matrix.map((row) => row.slice()),
        column,
      )
    )
      return null;
    sigmas.push(Math.sqrt(variance * Math.max(0, column[unknown] ?? Infinity)) / (2 * Math.PI));
  }
  const lines = [0, 1]
    .map((which) => ({
      hertz: hertz + (unknowns[2 * which] ?? 0) / (2 * Math.PI),
      sigma: sigmas[which] ?? Infinity,
      amplitude: Math.hypot(...(amplitudes[which] ?? [0])),
    }))
    .sort((left, right) => left.hertz - right.hertz);
  const [low, high] = lines;
  if (low === undefined || high === undefined) return null;
  return {
    hertz: [low.hertz, high.hertz],
    sigmaHertz: [low.sigma, high.sigma],
    amplitudes: [low.amplitude, high.amplitude],
    gain: (one.projection.left - projection.left) / 4 / variance,
  };
};
