// Shared pieces of the value phrases: weights for what is less usual, and one phrase object for equal recipes.
import type { Phrase } from "./automaton.ts";

/** Out-of-band values are this much less usual than those in the band. */
export const OUT_OF_BAND = 0.05;
/** Ways of saying a value that are understood but seldom used. */
export const SELDOM = 0.1;

/**
 * A sentence that breaks off before its figure, beside the whole one: whoever looks at the instrument first says what is measured, and
 * where no such sentence is in the grammar the breath after it is heard for a figure.
 */
export const BROKEN_OFF = 0.1;

export interface ScaleRange {
  readonly low: number;
  readonly high: number;
}

export const inBand = (n: number, { low, high }: ScaleRange) => (n >= low && n <= high ? 1 : OUT_OF_BAND);

const kept = new Map<string, Phrase>();

/** One phrase object for equal recipes, so that their states are built once and shared. */
export function once(key: string, make: () => Phrase): Phrase {
  const known = kept.get(key);
  if (known !== undefined) return known;
  const made = make();
  kept.set(key, made);
  return made;
}
