// Passes made by hand, for what is decided on them.
import type { Pass } from "../../../extractors/hearing/doubt/vote.ts";

/** A pass of the whole grammar that heard `text`, each word a second long at `costRate` a second. */
export const passOf = (text: string, over: Partial<Pass> = {}, costRate = 100): Pass => ({
  warp: 1,
  turn: 0,
  decoded: { words: text.split(" ").map((word, at) => ({ word, start: at, end: at + 1, cost: costRate })), cost: 500 },
  full: true,
  text,
  meaning: text,
  plain: true,
  command: false,
  ...over,
});
