// A kept draft as the reading of the contract: exact digits, double, unit, what was implied, span.
import type { Reading } from "../../shared/events/reading.ts";
import { numberOf, textOf } from "./numbers/decimal.ts";
import type { Kept } from "./state.ts";
import type { Token } from "./types.ts";

/** Fields in the contract's order. */
export function toReading(kept: Kept, tokens: readonly Token[]): Reading {
  const { draft, because } = kept;
  const { dec, unit } = draft.value;
  const start = tokens[draft.from]?.start ?? 0;
  const end = tokens[draft.to - 1]?.end ?? start;
  const reading: Reading = {
    quantity: draft.quantity,
    place: draft.place,
    value: numberOf(dec),
    unit,
    digits: textOf(dec),
    implied: [...draft.implied],
    do: because === undefined ? "accept" : "confirm",
    span: [start, end],
  };
  if (because !== undefined) reading.because = because;
  if (draft.condition !== undefined) reading.condition = draft.condition;
  if (draft.over !== undefined) {
    const over = draft.over;
    reading.over = { value: numberOf(over.dec), unit: over.unit, digits: textOf(over.dec) };
  }
  return reading;
}
