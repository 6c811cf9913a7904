// A slip put right in the same breath ("one, no sorry, two thou"): what was taken back is dropped.
import type { Token } from "../types.ts";
import type { Element } from "./elements.ts";

const isNeg = (tokens: readonly Token[], e: Element): boolean => e.t === "word" && tokens[e.from]?.sense.kind === "neg";
const isNot = (tokens: readonly Token[], e: Element): boolean => e.t === "word" && tokens[e.from]?.sense.kind === "not";

const isFiller = (tokens: readonly Token[], e: Element | undefined): boolean =>
  e?.t === "word" && ["filler", "prep"].includes(tokens[e.from]?.sense.kind ?? "") && slotsOf(tokens, e) === undefined;

function slotsOf(tokens: readonly Token[], e: Element): string | undefined {
  if (e.t === "place") return "number";
  if (e.t !== "word") return undefined;
  return tokens[e.from]?.sense.slots?.map(([slot]) => slot).join();
}

/** Elements with what the speaker took back left out. */
export function selfCorrected(elements: readonly Element[], tokens: readonly Token[]): readonly Element[] {
  if (!elements.some((e) => isNeg(tokens, e) || isNot(tokens, e))) return elements;
  let out: Element[] = [];
  for (let k = 0; k < elements.length; k++) {
    const element = elements[k] as Element;
    if (isNot(tokens, element)) {
      // "three not two": the one after "not" is what it is not.
      while (isFiller(tokens, elements[k + 1])) k++;
      const next = elements[k + 1];
      if (next !== undefined && next.t !== "word") k++;
      else if (next !== undefined && slotsOf(tokens, next) !== undefined) k++;
      else if (next !== undefined && elements[k + 2]?.t === "place") k += 2;
      continue;
    }
    if (!isNeg(tokens, element) || out.every((e) => e.t === "word" && slotsOf(tokens, e) === undefined)) {
      out.push(element);
      continue;
    }
    out = takeBack(out, elements.slice(k + 1), tokens);
    out.push(element);
  }
  return out;
}

function takeBack(before: readonly Element[], after: readonly Element[], tokens: readonly Token[]): Element[] {
  const fresh = after.find((e) => e.t !== "word" || slotsOf(tokens, e) !== undefined);
  if (fresh === undefined) return [...before];
  const kind = fresh.t === "value" ? "value" : slotsOf(tokens, fresh);
  for (let k = before.length - 1; k >= 0; k--) {
    const e = before[k] as Element;
    const same = kind === "value" ? e.t === "value" : slotsOf(tokens, e) === kind && e.t === fresh.t;
    if (same) return before.filter((_, j) => j !== k);
  }
  // "one, no sorry, two thou": the bare number was the slip.
  const last = before.length - 1;
  const slip = before[last];
  if (kind === "value" && slip?.t === "place" && slip.noun === undefined) return before.slice(0, last);
  return [...before];
}
