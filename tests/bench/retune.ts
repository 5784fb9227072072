// What a retune takes on seeded virtual instruments, led by the coach and by a plain meter. Run: node src-main/node24.mjs tests/bench/retune.ts [COUNT SEED]
// Prints what was measured; asserts nothing. All magnitudes of the virtual instruments are assumed.
import { evenings, retunes } from './retune/runs.ts';

const count = Number(process.argv[2] ?? 200);
const seed = Number(process.argv[3] ?? 20_264);

retunes(seed, count);
evenings(seed + 1, Math.ceil(count / 2));
