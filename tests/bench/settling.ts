// Figures of the settling room on seeded virtual strings whose laws and parameters it does not know. Run: npm run bench:settling [-- COUNT SEED]
// Prints what was measured; asserts nothing.
import { forecasts, learningCurve } from './settling/forecasts.ts';

const count = Number(process.argv[2] ?? 1000);
const seed = Number(process.argv[3] ?? 20_261);

forecasts(seed, count);
learningCurve(seed + 10, Math.ceil(count / 2));
