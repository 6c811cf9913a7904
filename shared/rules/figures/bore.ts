// Bore figures by cylinder: out-of-round, taper, wear.

import type { LoggedReading } from "../../build/build.ts";
import { type BoreForm, boreForm, boreWear } from "../../compute/bore.ts";
import { inch } from "../../compute/measure.ts";
import { AXES, DEPTHS } from "../../places/places.ts";
import type { Condition } from "../../spec/spec.ts";
import type { RuleContext } from "../context.ts";
import { number } from "../text.ts";
import { nominal, nominalStep, only, valueIn, within } from "./pick.ts";
import type { Figure, FigureValue } from "./types.ts";

type Grid = Record<string, LoggedReading>;

function measured(context: RuleContext, cylinder: number, condition?: Condition): { form: BoreForm; grid: Grid } {
  const grid: Grid = {};
  const levels = DEPTHS.map((depth) => {
    const level: { thrust?: ReturnType<typeof inch>; axial?: ReturnType<typeof inch> } = {};
    for (const axis of AXES) {
      const logged = context.latest("bore_diameter", { cylinder, depth, axis }, condition);
      if (logged === undefined) continue;
      grid[`${depth} ${axis}`] = logged;
      level[axis] = inch(valueIn(logged, "in"));
    }
    return level;
  });
  return { form: boreForm(levels), grid };
}

const shown = (logged: LoggedReading): string => number(valueIn(logged, "in"), "in");

function outOfRound(context: RuleContext, cylinder: number, condition?: Condition): FigureValue | undefined {
  const { form, grid } = measured(context, cylinder, condition);
  if (form.outOfRound === undefined || form.outOfRoundAt === undefined) return undefined;
  const depth = DEPTHS[form.outOfRoundAt];
  const pair = [grid[`${depth} thrust`], grid[`${depth} axial`]].flatMap((logged) => logged ?? []);
  return {
    value: form.outOfRound,
    working: `${depth}: |${pair.map(shown).join(" - ")}| = ${number(form.outOfRound, "in")}`,
    readings: pair,
    weights: [1, -1],
  };
}

function taper(context: RuleContext, cylinder: number, condition?: Condition): FigureValue | undefined {
  const { form, grid } = measured(context, cylinder, condition);
  if (form.taper === undefined || form.taperAxis === undefined) return undefined;
  const along = DEPTHS.flatMap((depth) => grid[`${depth} ${form.taperAxis}`] ?? []);
  const sorted = [...along].sort((a, b) => valueIn(b, "in") - valueIn(a, "in"));
  const ends = [sorted[0], sorted.at(-1)].flatMap((logged) => logged ?? []);
  return {
    value: form.taper,
    working: `${form.taperAxis}: ${ends.map(shown).join(" - ")} = ${number(form.taper, "in")}`,
    readings: along,
    weights: along.map((logged) => (logged === ends[0] ? 1 : logged === ends[1] ? -1 : 0)),
  };
}

function wear(context: RuleContext, cylinder: number, condition?: Condition): FigureValue | undefined {
  const standard = nominal(context.spec, "bore");
  const readings = within(context, "bore_diameter", { cylinder }, condition);
  const top = readings.sort((a, b) => valueIn(b, "in") - valueIn(a, "in"))[0];
  if (standard === undefined || top === undefined) return undefined;
  const value = boreWear(inch(valueIn(top, "in")), inch(standard));
  return {
    value,
    working: `${shown(top)} - ${number(standard, "in")} = ${number(value, "in")}`,
    readings: [top],
    weights: [1],
    sheet: [{ step: nominalStep(context.spec, "bore"), by: -1 }],
  };
}

const figure = (
  id: string,
  label: string,
  read: (context: RuleContext, cylinder: number, condition?: Condition) => FigureValue | undefined,
): Figure => ({
  id,
  label,
  unit: "in",
  from: ["bore_diameter"],
  places: (place) => only(place, ["cylinder"]),
  value: ({ cylinder }, context, condition) => (cylinder === undefined ? undefined : read(context, cylinder, condition)),
});

export const BORE_FIGURES: readonly Figure[] = [
  figure("bore_out_of_round", "Bore out-of-round", outOfRound),
  figure("bore_taper", "Bore taper", taper),
  figure("bore_wear", "Bore wear", wear),
];
