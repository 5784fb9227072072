// What a retune takes on seeded virtual instruments, led by the coach and by a plain meter; a smaller set through sound, from samples to pegs.
// Run: node src-main/node24.mjs tests/bench/retune.ts [COUNT SEED SOUND_COUNT]. Prints what was measured; asserts nothing. All magnitudes of the virtual instruments are assumed.
import { evenings, retunes } from './retune/runs.ts';
import { soundRetunes } from './retune/sound-runs.ts';

const count = Number(process.argv[2] ?? 200);
const seed = Number(process.argv[3] ?? 20_264);
const soundCount = Number(process.argv[4] ?? 20);

if (count > 0) {
  retunes(seed, count);
  evenings(seed + 1, Math.ceil(count / 2));
}
if (soundCount > 0) soundRetunes(seed + 2, soundCount);
