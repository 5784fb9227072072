/** Mains frequencies in the world; IEC 60038. */
const mains = [50, 60] as const;
const mainsPartials = 20;
/** How far a grid strays from its frequency in ordinary operation, as a share (0.2 %: common practice). */
const mainsStray = 0.002;

/** Whether a frequency is one of the mains hum's, and which multiple of which mains: `mainsPartialOf(100.02)` → `{ mains: 50, partial: 2 }`. */
export const mainsPartialOf = (hertz: number): { mains: number; partial: number } | null => {
  for (const frequency of mains) {
    const partial = Math.round(hertz / frequency);
    if (partial >= 1 && partial <= mainsPartials && Math.abs(hertz / partial / frequency - 1) < mainsStray)
      return { mains: frequency, partial };
  }
  return null;
};
