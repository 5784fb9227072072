/** Thickness of a drawn string: 1.4–4 px by gauge. */
export const stringWidth = (gaugeMillimetres: number): number => Math.min(4, Math.max(1.4, 0.4 + gaugeMillimetres * 2.8));
