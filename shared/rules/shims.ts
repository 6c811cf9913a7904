// Shims: both sides of a cap alike within a lamination, and every pack back on the side it came from.
import type { LoggedReading } from "../build/build.ts";
import { minus } from "../compute/measure.ts";
import type { Place } from "../places/places.ts";
import { bearingAt, type Condition } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import { sheetFigure, valueIn } from "./figures/pick.ts";
import { NO_REWORK } from "./remedies/bearings.ts";
import type { Rule, Subject } from "./rule.ts";
import { at, bounds, figure, number } from "./text.ts";

/** Thinnest lamination when the sheet names none (common practice: .001, .002 and .003 in). */
const LAMINATION = 0.001;
const SOURCE = "common practice, no source";

/** The cap a pack belongs to. */
function capOf({ main, rod }: Place): Subject[] {
  if (main !== undefined) return [{ place: { main }, tag: "" }];
  return rod === undefined ? [] : [{ place: { rod }, tag: "" }];
}

const subjects: Rule["subjects"] = (key) => (key.kind === "reading" && key.name === "shim_thickness" ? capOf(key.place) : []);

function pack(context: RuleContext, place: Place, side: "a" | "b", condition?: Condition): LoggedReading | undefined {
  return context.latest("shim_thickness", { ...place, side }, condition);
}

const evidence = (...readings: readonly LoggedReading[]): string[] => readings.flatMap((logged) => logged.evidence);

const CALLED = { shell: "shells", roller: "rollers", ball: "ball bearings", bush: "bushes" } as const;

export const SHIM_FORBIDDEN: Rule = {
  id: "shim_forbidden",
  title: "No shims where a bearing takes none",
  subjects,
  check: ({ place }, context) => {
    const kind = bearingAt(context.spec.engine, place);
    const packs = (["a", "b"] as const).flatMap((side) => pack(context, place, side) ?? []);
    if (kind === "poured" || packs.length === 0) return undefined;
    const thickest = Math.max(...packs.map((logged) => valueIn(logged, "in")));
    const bare = thickest <= 0;
    return {
      rule: "shim_forbidden",
      verdict: bare ? "pass" : "fail",
      place,
      value: thickest,
      limit: bounds({ high: 0 }, "in"),
      unit: "in",
      why: `Shims${at(place)}: ${figure(thickest, "in")}, and the sheet says ${CALLED[kind]}: ${bare ? "none, as it must be" : "what holds them seats metal to metal"}.`,
      source: "TM 10-3930-653-14&P, p. 78, and TM 5-3805-255-14, WP 0094: no shims, scraping or filing with shells",
      ...(bare
        ? {}
        : {
            remedy: `Take the shims out, then measure journal and housing bore: ${kind === "shell" ? NO_REWORK : "such a bearing takes no shim"}. Where it is poured after all, put that on the sheet.`,
          }),
      evidence: evidence(...packs),
    };
  },
};

export const SHIM_MATCH: Rule = {
  id: "shim_match",
  title: "Shims alike on both sides of a cap",
  subjects,
  check: ({ place }, context) => {
    if (bearingAt(context.spec.engine, place) !== "poured") return undefined;
    const a = pack(context, place, "a");
    const b = pack(context, place, "b");
    if (a === undefined || b === undefined) return undefined;
    const [thickA, thickB] = [valueIn(a, "in"), valueIn(b, "in")];
    const difference = Math.abs(minus(thickA, thickB));
    const lamination = sheetFigure(context.spec, "shim_spare") ?? LAMINATION;
    const alike = difference <= lamination;
    const thicker = thickA > thickB ? "A" : "B";
    return {
      rule: "shim_match",
      verdict: alike ? "pass" : "fail",
      place,
      value: difference,
      limit: `${figure(lamination, "in")} at most`,
      unit: "in",
      why: `Shims${at(place)}: side A ${number(thickA, "in")}, side B ${number(thickB, "in")}, difference ${figure(difference, "in")}; ${alike ? "within" : "more than"} one lamination of ${figure(lamination, "in")}.`,
      source: SOURCE,
      ...(alike
        ? {}
        : {
            remedy: `Take ${figure(difference, "in")} from side ${thicker}, or add it to the other: unlike sides cock the cap.`,
          }),
      evidence: evidence(a, b),
    };
  },
};

export const SHIM_RETURN: Rule = {
  id: "shim_return",
  title: "Shims back on the side they came from",
  subjects,
  check: ({ place }, context) => {
    const [foundA, foundB] = [pack(context, place, "a", "as_found"), pack(context, place, "b", "as_found")];
    const [nowA, nowB] = [pack(context, place, "a", "final"), pack(context, place, "b", "final")];
    if (foundA === undefined || foundB === undefined || nowA === undefined || nowB === undefined) return undefined;
    const [a, b, endA, endB] = [foundA, foundB, nowA, nowB].map((logged) => valueIn(logged, "in"));
    const swapped = a !== b && endA === b && endB === a;
    return {
      rule: "shim_return",
      verdict: swapped ? "fail" : "pass",
      place,
      value: null,
      limit: null,
      unit: null,
      why: swapped
        ? `Shims${at(place)} came off as A ${number(a ?? 0, "in")}, B ${number(b ?? 0, "in")} and went on as A ${number(endA ?? 0, "in")}, B ${number(endB ?? 0, "in")}: the sides are swapped.`
        : `Shims${at(place)} went back on the sides they came from.`,
      source: SOURCE,
      ...(swapped ? { remedy: "Change the packs over and gauge the bearing again." } : {}),
      evidence: evidence(foundA, foundB, nowA, nowB),
    };
  },
};
