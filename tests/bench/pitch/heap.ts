import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
const collect: () => void = runInNewContext('gc');

/** What this thread's heap holds after a collection, in megabytes: what is kept, not what is yet to be thrown away. */
export const heldMegabytes = (): number => {
  collect();
  return usedMegabytes();
};

/** What this thread's heap holds with all that is yet to be thrown away, in megabytes. */
export const usedMegabytes = (): number => process.memoryUsage().heapUsed / 2 ** 20;

/** Figures of one minute after the other, as in a table's cell. */
export const minuteByMinute = (megabytes: readonly number[]): string => megabytes.map((value) => value.toFixed(1)).join(' ') || '–';
