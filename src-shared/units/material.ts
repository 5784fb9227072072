/** What strings are made of; a wound string names its core. */
export const materials = ['nylon', 'synthetic-gut', 'fluorocarbon', 'gut', 'steel'] as const;

export type Material = (typeof materials)[number];
