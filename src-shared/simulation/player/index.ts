// The virtual instrument and its player: strings that creep on a body that gives way, pegs with play, a hand that errs, an ear with a sigma.
// Knows: how an instrument and a player might behave (all magnitudes assumed). Must not know: the coach; whoever guides comes in as a Guide.
// Add here: another fault of pegs in peg.ts, of the hand in player.ts, of the body in body.ts.
export { drawBody, type Body } from './body.ts';
export { drawInstrument, type InstrumentFacts, type VirtualInstrument } from './instrument.ts';
export { drawPeg, turned, type Peg } from './peg.ts';
export { drawPlayer, type Asked, type Guide, type HeardFrame, type Outcome, play, type Player } from './player.ts';
