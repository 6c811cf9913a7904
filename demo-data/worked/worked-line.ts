// A line of a worked day book: what is said, and what has to come of it, as `readingText` writes it.

/** Said, and come to: `crankpin_diameter rod=4 1.9988 in`, with ` ?` behind what waits for a yes; `step bores`; `inspection pass`. */
export type WorkedLine = readonly [said: string, comesTo: string];
