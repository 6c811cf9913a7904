// A word right before a value that may have been part of it, and was not read: the value waits for a yes.
import { confirmWhere, type Refiner } from "../state.ts";
import type { Token } from "../types.ts";
import { DIGIT_HEARD_AS } from "../vocabulary/misheard.ts";

/** Words that are also spoken before a value in plain English ("to twelve thou", "for two tenths"). */
const PLAIN: ReadonlySet<string> = new Set(["to", "for"]);

/** "to and a half thou", "ate five thou": the first word of the number may have been left out. */
export const confirmUnread: Refiner = {
  name: "confirmUnread",
  refine: (state) => confirmWhere(state, "repaired", (draft) => isCutShort(state.tokens, draft.expr.from)),
};

function isCutShort(tokens: readonly Token[], from: number): boolean {
  const first = tokens[from];
  const before = tokens[from - 1];
  if (first === undefined || before === undefined || first.pause) return false;
  const { num, kind } = first.sense;
  const fraction = kind === "article" || num?.t === "half" || num?.t === "quarter" || num?.t === "point";
  // "and a half" belongs to a number; unless one was read before it, that number was not.
  if (before.sense.kind === "and" && fraction) return isLoose(tokens[from - 2]);
  if (!Object.hasOwn(DIGIT_HEARD_AS, before.text) || before.sense.num !== undefined) return false;
  return before.sense.kind === undefined || before.sense.kind === "talk" || (num?.t === "point" && PLAIN.has(before.text));
}

/** Neither a number nor its unit, nor a word of the bench that an "and" may join. */
function isLoose(token: Token | undefined): boolean {
  if (token === undefined) return true;
  const { num, unit, feat, slots, noun } = token.sense;
  return num === undefined && unit === undefined && feat === undefined && slots === undefined && noun === undefined;
}
