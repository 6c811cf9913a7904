// Which remedy serves which figure; figures without a row get the plain distance to their limit.
import { type BearingKind, bearingAt, suits } from "../../spec/engine.ts";
import { figure as text } from "../text.ts";
import { BEARING_REMEDIES } from "./bearings.ts";
import { BORE_REMEDIES } from "./bores.ts";
import { FIT_REMEDIES } from "./fits.ts";
import { HEAD_REMEDIES } from "./head.ts";
import type { Advice, Remedy, RemedyRow, Trouble } from "./types.ts";
import { VALVE_REMEDIES } from "./valves.ts";

export const REMEDIES: Readonly<Record<string, RemedyRow>> = {
  ...BORE_REMEDIES,
  ...FIT_REMEDIES,
  ...BEARING_REMEDIES,
  ...HEAD_REMEDIES,
  ...VALVE_REMEDIES,
};

/** Float is taken by the mains, wherever it was read. */
const bearing = ({ figure, place, context }: Trouble): BearingKind =>
  bearingAt(context.spec.engine, figure.id === "crank_end_float" ? { main: 1 } : place);

/** The remedy that the engine's kind allows. */
function suited(advice: Advice | undefined, trouble: Trouble): Remedy | undefined {
  if (advice === undefined || typeof advice === "function") return advice;
  const { engine } = trouble.context.spec;
  return advice.find(({ at, needs }) => suits(engine, needs) && (at?.includes(bearing(trouble)) ?? true))?.say;
}

/** What to do about a figure outside its accepted bounds. */
export function remedyFor(trouble: Trouble): string | undefined {
  const { value, accept, figure } = trouble;
  const side = accept.low !== undefined && value < accept.low ? "low" : "high";
  const own = suited(REMEDIES[figure.id]?.[side], trouble)?.(trouble);
  if (own !== undefined) return own;
  const bound = accept[side];
  if (bound === undefined) return undefined;
  const off = Number(Math.abs(value - bound).toPrecision(12));
  return `${side === "low" ? "Raise" : "Bring"} it ${side === "low" ? "" : "down "}by ${text(off, figure.unit)} to reach ${text(bound, figure.unit)}.`;
}
