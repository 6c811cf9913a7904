/** A word as the parser spells it, and the ways it is said, most usual first. */
export type Pronunciations = Readonly<Record<string, readonly string[]>>;
