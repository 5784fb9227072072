import { sampleRateHertz, type Clip } from './clip.ts';

/** The stretch that the bound is for: as long as the longest that the tracker looks at, half a second after the pluck. */
const stretchSeconds = 0.427;
const fromSeconds = 0.3;
const partialsAtMost = 16;

/** Amplitude of one frequency in the stretch, by projection. */
const amplitudeAt = (samples: Float32Array, start: number, length: number, hertz: number) => {
  let real = 0;
  let imaginary = 0;
  for (let index = 0; index < length; index++) {
    const window = 1 - Math.cos((2 * Math.PI * (index + 0.5)) / length);
    const angle = (2 * Math.PI * hertz * index) / sampleRateHertz;
    real += window * samples[start + index]! * Math.cos(angle);
    imaginary += window * samples[start + index]! * Math.sin(angle);
  }
  return (2 * Math.hypot(real, imaginary)) / length;
};

/**
 * Cramér–Rao bound in cents for the first partial of a stiff string in white noise of deviation s, from N samples, with B, all
 * amplitudes and phases unknown. A sinusoid of amplitude A carries information A²N³/(24 s²) on its angular frequency (per sample,
 * D. Rife and R. Boorstyn, IEEE Trans. Information Theory 20, 1974); partial n moves by n·√((1+Bn²)/(1+B)) with the first and by
 * ½(n²/(1+Bn²) − 1/(1+B)) of itself with B, so the 2×2 information on (ln f1, B) is a sum over partials. Null where no white noise was added.
 */
export const boundCents = (clip: Clip): number | null => {
  const { white, pluckedAtSeconds } = clip;
  if (white === null) return null;
  const { clean, deviation } = white;
  const start = Math.round((pluckedAtSeconds + fromSeconds) * sampleRateHertz);
  const length = Math.round(stretchSeconds * sampleRateHertz);
  const hertz = clean.truthHertz(pluckedAtSeconds + fromSeconds + stretchSeconds / 2);
  let aa = 0;
  let ab = 0;
  let bb = 0;
  for (let n = 1; n <= partialsAtMost; n++) {
    const frequency = hertz * n * Math.sqrt((1 + clean.inharmonicity * n * n) / (1 + clean.inharmonicity));
    if (frequency > 0.45 * sampleRateHertz) break;
    const information = (amplitudeAt(clean.samples, start, length, frequency) ** 2 * length ** 3) / (24 * deviation ** 2);
    const turn = (2 * Math.PI * frequency) / sampleRateHertz;
    const stretch = 0.5 * ((n * n) / (1 + clean.inharmonicity * n * n) - 1 / (1 + clean.inharmonicity));
    aa += information * turn * turn;
    ab += information * turn * turn * stretch;
    bb += information * (turn * stretch) ** 2;
  }
  const determinant = aa * bb - ab * ab;
  return determinant > 0 ? (1200 / Math.LN2) * Math.sqrt(bb / determinant) : 1200 / Math.LN2 / Math.sqrt(aa);
};
