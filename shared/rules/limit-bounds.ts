// A limit made ready for one place: its bounds in the figure's unit, and how they came about.

import type { LoggedReading } from "../build/build.ts";
import { convertMeasure } from "../compute/units.ts";
import { type Place, placeMatches } from "../places/places.ts";
import type { Limit } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import { boreOf, nominal } from "./figures/pick.ts";
import type { Figure } from "./figures/types.ts";
import { type Bounds, bounds, number } from "./text.ts";

export interface ReadyLimit {
  readonly accept: Bounds;
  readonly reject: Bounds | undefined;
  /** `0.0117 to 0.0176 in (0.0030 to 0.0045 x bore 3.9050)`. */
  readonly text: string;
  /** Readings that the bounds themselves rest on. */
  readonly readings: readonly LoggedReading[];
}

type Scale = { readonly low: number; readonly high: number; readonly text: string; readonly readings: readonly LoggedReading[] };

function scaleOf(limit: Limit, place: Place, context: RuleContext): Scale | undefined {
  if (limit.perInchOf === undefined) return { low: 1, high: 1, text: "", readings: [] };
  if (limit.perInchOf === "bore" && place.cylinder !== undefined) {
    const bore = boreOf(context, place.cylinder);
    if (bore === undefined) return undefined;
    // A gap closes in the tight part of the bore and opens in the wide part, so each bound takes the diameter that tries it.
    const same = bore.smallest === bore.largest;
    const sizes = same ? number(bore.smallest, "in") : `${number(bore.smallest, "in")}..${number(bore.largest, "in")}`;
    return {
      low: bore.smallest,
      high: bore.smallest,
      text: `bore ${sizes}${bore.nominal ? ", not measured" : ""}`,
      readings: bore.nominal ? [] : bore.readings.filter((logged) => logged.reading.value === bore.smallest).slice(0, 1),
    };
  }
  const size = nominal(context.spec, limit.perInchOf);
  return size === undefined
    ? undefined
    : { low: size, high: size, text: `${limit.perInchOf} ${number(size, "in")}`, readings: [] };
}

function scaled(pair: Limit["accept"], limit: Limit, figure: Figure, scale: Scale): Bounds {
  // A share of a size that is in inches here comes to inches, whichever system the sheet has it in.
  const unit = limit.perInchOf === undefined ? limit.unit : "in";
  const one = (text: string | undefined, by: number) =>
    text === undefined ? undefined : Number(convertMeasure(Number(text) * by, unit, figure.unit).toPrecision(12));
  return { low: one(pair.low, scale.low), high: one(pair.high, scale.high) };
}

/** The limit's bounds at a place; undefined when a size they depend on is not known at all. */
export function readyLimit(limit: Limit, figure: Figure, place: Place, context: RuleContext): ReadyLimit | undefined {
  const scale = scaleOf(limit, place, context);
  if (scale === undefined) return undefined;
  const accept = scaled(limit.accept, limit, figure, scale);
  const reject = limit.reject === undefined ? undefined : scaled(limit.reject, limit, figure, scale);
  const share = bounds({ low: toNumber(limit.accept.low), high: toNumber(limit.accept.high) }, "ratio_of_size");
  const per = limit.perInchOf === undefined ? "" : ` (${share} x ${scale.text})`;
  return { accept, reject, text: `${bounds(accept, figure.unit)}${per}`, readings: scale.readings };
}

const toNumber = (text: string | undefined) => (text === undefined ? undefined : Number(text));

/** Readings of one stage that are another figure: lash is set cold unless a limit says hot, and a hot one is held against that alone. */
const APART: Readonly<Record<string, string>> = { valve_lash: "hot" };

const speaksOf = (limit: Limit, figure: Figure, place: Place): boolean => {
  const apart = APART[figure.id];
  if (apart !== undefined && place.stage === apart && limit.where?.stage !== apart) return false;
  return placeMatches(limit.where ?? {}, place);
};

/** Of a figure's limits, those that speak of this place, only the most particular of each condition. */
export function limitsAt(figure: Figure, place: Place, context: RuleContext): Limit[] {
  const matching = context.limitsOn(figure.id).filter((limit) => speaksOf(limit, figure, place));
  return matching.filter((limit) => {
    const rivals = matching.filter((other) => other.condition === limit.condition);
    return slots(limit) === Math.max(...rivals.map(slots));
  });
}

const slots = (limit: Limit): number => Object.keys(limit.where ?? {}).length;
