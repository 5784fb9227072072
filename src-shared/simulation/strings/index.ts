// Virtual strings: creep by four laws, superposed over every move, and slips, slides, bends, weather and honest or wrong readings.
// Knows: how a string might behave (all magnitudes assumed). Must not know: how it is judged; settling never imports this room.
// Add here: another law in laws.ts, another mishap in events.ts.
export { seededRandom, type Random } from './random.ts';
export { drawLaw, lawKinds, progress, type LawKind, type VirtualLaw } from './laws.ts';
export { creepCents, drawString, type VirtualString } from './string.ts';
export { eventCents, type Event } from './events.ts';
export { drawMoments, drawReading, type ReadingNoise } from './readings.ts';
export { logOf, readVisit, trueCents, type Life, type Visit } from './session.ts';
