// A word right before a value that may have been part of it, and was not read: the value waits for a yes.
import { confirmWhere, type Refiner } from "../state.ts";
import type { Token } from "../types.ts";
import { DIGIT_HEARD_AS } from "../vocabulary/misheard.ts";

/** "to and a half thou", "for twelve thou", "two a half thou": the first word of the number may have been left out. */
export const confirmUnread: Refiner = {
  name: "confirmUnread",
  refine: (state) => {
    const taken = (at: number) => state.kept.some(({ draft }) => at >= draft.expr.from && at < draft.expr.to);
    const next = confirmWhere(state, "repaired", (draft) => isCutShort(state.tokens, draft.expr.from) || opensOdd(state.tokens));
    return confirmWhere(next, "place_or_figure", ({ expr }) => !taken(expr.from - 1) && isBareBefore(state.tokens, expr.from));
  },
};

function isCutShort(tokens: readonly Token[], from: number): boolean {
  const first = tokens[from];
  const before = tokens[from - 1];
  if (first === undefined || before === undefined || first.pause) return false;
  // "and a half" belongs to a number; unless one was read before it, that number was not.
  if (before.sense.kind === "and") return isLoose(tokens[from - 2]);
  if (!Object.hasOwn(DIGIT_HEARD_AS, before.text) || before.sense.num !== undefined) return false;
  // "set to twelve thou" is plain English; "to twelve thou" alone, or "to a half thou", may be a number cut short.
  const plain = before.sense.kind === "toward" || before.sense.kind === "prep";
  return !plain || from === 1 || startsFraction(first);
}

/** "for one bottom, ...": the sentence opens with what may be a digit or a name misheard, and a number follows. */
function opensOdd([first, second]: readonly Token[]): boolean {
  if (first === undefined || second === undefined || second.pause || second.sense.num === undefined) return false;
  return Object.hasOwn(DIGIT_HEARD_AS, first.text) && first.sense.num === undefined;
}

/** "two a half thou": place two and half a thou, or two and a half. */
function isBareBefore(tokens: readonly Token[], from: number): boolean {
  const first = tokens[from];
  if (first === undefined || first.pause || !startsFraction(first) || tokens[from - 1]?.sense.num === undefined) return false;
  const before = tokens[from - 2];
  return before === undefined || tokens[from - 1]?.pause === true || isLoose(before);
}

const startsFraction = ({ sense }: Token): boolean =>
  sense.kind === "article" || sense.num?.t === "half" || sense.num?.t === "quarter" || sense.num?.t === "point";

/** Neither a number nor its unit, nor a word of the bench that an "and" may join. */
function isLoose(token: Token | undefined): boolean {
  if (token === undefined) return true;
  const { num, unit, feat, slots, noun, sign } = token.sense;
  return [num, unit, feat, slots, noun, sign].every((part) => part === undefined);
}
