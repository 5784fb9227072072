/** What an address may name besides the screen: the instrument in hand, the tuning it is to go to, the row that is open. */
export type Address = { readonly on?: string; readonly to?: string; readonly open?: string };

const text = (value: unknown): string | undefined => (typeof value === 'string' && value !== '' ? value : undefined);

/** Reads an address as it stands in the location; whatever else stands there is left out. */
export function readAddress(search: Record<string, unknown>): Address {
  const [on, to, open] = [text(search['on']), text(search['to']), text(search['open'])];
  return { ...(on === undefined ? {} : { on }), ...(to === undefined ? {} : { to }), ...(open === undefined ? {} : { open }) };
}

/** The same instrument, on another screen. */
export const keepInstrument = ({ on }: Address): Address => (on === undefined ? {} : { on });
