import { randomness, type Randomness } from './random.ts';

/** First three resonances of five vowels in hertz, an average voice (after Peterson and Barney 1952; rounded, from memory). */
const vowels: readonly (readonly number[])[] = [
  [730, 1090, 2440],
  [530, 1840, 2480],
  [270, 2290, 3010],
  [570, 840, 2410],
  [300, 870, 2240],
];

const resonance = (frequency: number, centre: number) => 1 / (1 + ((frequency - centre) / (60 + 0.06 * centre)) ** 2);

/** Adds one syllable of one voice to `samples`, from sample `first`, `length` samples long. */
const addSyllable = (samples: Float32Array, first: number, length: number, sampleRateHertz: number, pitch: number, random: Randomness) => {
  const vowel = vowels[Math.floor(random.uniform() * vowels.length)] ?? [];
  const slope = (random.uniform() - 0.6) * 0.5;
  const partials = Math.min(30, Math.floor(4000 / pitch));
  const levels = Array.from({ length: partials }, (_, index) => {
    const frequency = pitch * (index + 1);
    return vowel.reduce((sum, centre, order) => sum + resonance(frequency, centre) / (1 + order), 0.02) / (1 + index * 0.2);
  });
  let phase = 2 * Math.PI * random.uniform();
  for (let index = 0; index < length && first + index < samples.length; index++) {
    const share = index / length;
    phase += (2 * Math.PI * pitch * (1 + slope * (share - 0.5) + 0.01 * Math.sin(share * 20))) / sampleRateHertz;
    const swell = Math.sin(Math.PI * share) ** 0.7;
    let value = 0.02 * random.normal();
    for (let partial = 0; partial < levels.length; partial++) value += (levels[partial] ?? 0) * Math.sin((partial + 1) * phase);
    samples[first + index] = (samples[first + index] ?? 0) + swell * value;
  }
};

/**
 * Sound like people talking: `voices` voices, each a chain of syllables with a wandering pitch, vowel resonances and pauses.
 * Not normalised; bring it to a level with `mixAt`. `babble({ seconds: 2, sampleRateHertz: 48000, voices: 2, seed: 3 })`.
 */
export const babble = ({
  seconds,
  sampleRateHertz,
  voices = 2,
  seed,
}: {
  seconds: number;
  sampleRateHertz: number;
  voices?: number;
  seed: number;
}) => {
  const random = randomness(seed);
  const samples = new Float32Array(Math.round(seconds * sampleRateHertz));
  for (let voice = 0; voice < voices; voice++) {
    const basePitch = 95 + 130 * random.uniform();
    let at = -0.2 * random.uniform();
    while (at < seconds) {
      const length = 0.08 + 0.22 * random.uniform();
      const pitch = basePitch * 2 ** ((random.uniform() - 0.5) * 0.8);
      addSyllable(
        samples,
        Math.max(0, Math.round(at * sampleRateHertz)),
        Math.round(length * sampleRateHertz),
        sampleRateHertz,
        pitch,
        random,
      );
      at += length * (0.9 + 0.3 * random.uniform()) + (random.uniform() < 0.15 ? 0.3 * random.uniform() : 0);
    }
  }
  return samples;
};
