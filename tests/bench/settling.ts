// Figures of the settling room on seeded virtual strings whose laws and parameters it does not know. Run: npm run bench:settling [-- COUNT SEED]
// Prints what was measured; asserts nothing.
import { keepsSlipping, slips } from './settling/faults.ts';
import { forecasts, learningCurve } from './settling/forecasts.ts';
import { holds, speed } from './settling/holds.ts';
import { reach } from './settling/reachable.ts';

const count = Number(process.argv[2] ?? 800);
const seed = Number(process.argv[3] ?? 20_261);

speed(seed);
forecasts(seed, count);
learningCurve(seed + 10, Math.ceil(count / 2));
reach(seed + 15, Math.ceil(count / 4));
slips(seed + 20, Math.ceil(count / 5));
keepsSlipping(seed + 30, Math.ceil(count / 4));
holds(seed + 40, Math.ceil(count / 2));
