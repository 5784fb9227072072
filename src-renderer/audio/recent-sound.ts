/** The latest samples of a stream, unbroken, up to a limit. `last(n)` copies the newest n, or as many as there are; `clear` after a break. */
export const createRecentSound = (limitSamples: number) => {
  const ring = new Float32Array(limitSamples);
  let written = 0;
  return {
    push: (samples: Float32Array): void => {
      const newest = samples.subarray(-limitSamples);
      const at = (written + samples.length - newest.length) % limitSamples;
      const untilEnd = newest.subarray(0, limitSamples - at);
      ring.set(untilEnd, at);
      ring.set(newest.subarray(untilEnd.length), 0);
      written += samples.length;
    },
    last: (count: number): Float32Array => {
      const length = Math.min(count, written, limitSamples);
      const from = (written - length) % limitSamples;
      const copy = new Float32Array(length);
      const head = ring.subarray(from, from + length);
      copy.set(head);
      copy.set(ring.subarray(0, length - head.length), head.length);
      return copy;
    },
    clear: (): void => {
      written = 0;
    },
  };
};
