// The shape of a published check.

/** Publication, what to ask, the single value it gives, and how far rounding lets us be off. */
export type Case = readonly [source: string, ask: string, value: number, tolerance: number];
export type Cases = Readonly<Record<string, readonly Case[]>>;

/** Publication, what to ask, the name of a part of the answer, its value, and how far rounding lets us be off: not at all when left out. */
export type PartCase = readonly [source: string, ask: string, part: string, value: unknown, tolerance?: number];
