// Sound of the virtual instrument: plucked strings whose pitch is known exactly at every moment, and what a room adds to them.
// Knows: hertz, seconds, decibels, a seed. Must not know: notes, instruments, the tracker that will listen.
// Add here: another sound source (own file) or another disturbance (mix.ts). Every random number comes from a seed.

export { pluckSound, stiffRatio, type Pluck, type PluckedSound, type Polarisation } from './pluck.ts';
export { turningPeg } from './peg.ts';
export { babble } from './voices.ts';
export { addNoise, clipped, loudness, mainsHum, mixAt, noise, sumOf } from './mix.ts';
