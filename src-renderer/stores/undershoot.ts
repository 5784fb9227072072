// Some pegs have play: a lowered string is taken a little below its aim and brought up. Which instruments have such pegs is remembered here.

const remembered = (instrumentId: string): string => `stillstring.undershoot.${instrumentId}`;

/** How far below its aim a lowered string is taken where that is wanted, in cents (common practice). */
export const undershootCents = 20;

/** How far below its aim a lowered string of this instrument is taken first, in cents; 0 = not at all. */
export const undershootOf = (instrumentId: string): number =>
  localStorage.getItem(remembered(instrumentId)) === 'on' ? undershootCents : 0;

/** Whether lowered strings of this instrument are taken below first. */
export const keepUndershoot = (instrumentId: string, isOn: boolean): void =>
  localStorage.setItem(remembered(instrumentId), isOn ? 'on' : 'off');
