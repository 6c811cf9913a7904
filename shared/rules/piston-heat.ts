// A piston whose clearance is gone once it is hot seizes, whatever the sheet allows: alloy grows twice as fast as iron.
import { inch, minus } from "../compute/measure.ts";
import { lostByHeat, RUNNING } from "../spec/piston-clearance.ts";
import { FIGURES } from "./figures/figures.ts";
import { boreOf } from "./figures/pick.ts";
import { staleBecause } from "./figures/types.ts";
import type { Rule } from "./rule.ts";
import { at, figure } from "./text.ts";

const CLEARANCE = FIGURES.get("piston_clearance");

export const PISTON_HEAT: Rule = {
  id: "piston_heat",
  title: "Piston clearance is not gone when hot",
  subjects: (key, { spec }) =>
    key.kind === "reading" && CLEARANCE?.from.some((quantity) => quantity === key.name)
      ? CLEARANCE.places(key.place, spec).map((place) => ({ place, tag: "" }))
      : [],
  check: ({ place }, context) => {
    const value = CLEARANCE?.value(place, context);
    const bore = place.cylinder === undefined ? undefined : boreOf(context, place.cylinder);
    if (value === undefined || bore === undefined || staleBecause(value) !== undefined) return undefined;
    // Who knows the piston knows its slots and struts: a maker's own limit stands.
    if (context.limitsOn("piston_clearance").some(({ source }) => source.kind === "maker")) return undefined;
    const { materials } = context.spec;
    const lost = lostByHeat(inch(bore.smallest), materials);
    const left = lost === undefined ? undefined : minus(value.value, lost);
    if (lost === undefined || left === undefined || left > 0) return undefined;
    const named = (material: string) => material.replaceAll("_", " ");
    return {
      rule: "piston_heat",
      verdict: "fail",
      place,
      value: left,
      limit: `more than ${figure(0, "in")} left hot`,
      unit: "in",
      why: `Piston clearance${at(place)} is ${figure(value.value, "in")} cold; a piston of ${named(materials.piston)} at ${RUNNING.piston} °C in a block of ${named(materials.block)} at ${RUNNING.block} °C takes ${figure(lost, "in")} of it: ${figure(left, "in")} would be left.`,
      source: "linear expansion; the temperatures are assumptions of ours, not the maker's",
      remedy: `Give it ${figure(lost, "in")} and a working clearance on top, or put the piston maker's own figure on the sheet, which wins over this.`,
      evidence: value.readings.flatMap((logged) => logged.evidence),
    };
  },
};
