// Weights of the evidence for a reading. Only their order and rough size matter; the tests hold them.

/** In favour when positive. */
export const WEIGHT = {
  name: 10,
  context: 8,
  contextTie: 3,
  sure: 8,
  guess: 3,
  step: 2,
  uncovered: -8,
  in: 6,
  near: -2,
  far: -14,
  missing: -5,
  absent: -7,
  stray: -12,
  spokenUnit: 1,
  spokenSlot: 2,
  impossibleSign: -9,
  over: 4,
  overless: -2,
  flag: -1,
  /** A whole number that nothing was said of may as well be a place. */
  lone: -3,
  /** An oversize or undersize of which neither over nor under was said. */
  sizeless: -5,
  tail: -12,
} as const;
