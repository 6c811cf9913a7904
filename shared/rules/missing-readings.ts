// Readings that a step needs and does not have yet, by cylinder, main or rod. They are said once the step has been opened.

import type { LoggedReading } from "../build/build.ts";
import type { Place } from "../places/places.ts";
import { MOVING_KEYS, placeLabel, valuesOf as valuesAlong } from "../places/places.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import type { QuantityId } from "../quantities/types.ts";
import { crankpinsOf } from "../spec/engine.ts";
import type { Expected, Spec } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import { within } from "./figures/pick.ts";
import type { Rule, Subject } from "./rule.ts";
import { list, sentence } from "./text.ts";

type Each = Expected["each"][number];
const groupSlot = (row: Expected): Each | undefined => MOVING_KEYS.find((slot) => row.each.includes(slot));

/** Of a crankpin that carries several rods its journal is read once, under any of their numbers. */
const ON_CRANKPIN: readonly QuantityId[] = ["crankpin_diameter"];
const matesOf = (row: Expected, rod: number, { engine }: Spec): readonly number[] =>
  ON_CRANKPIN.includes(row.quantity) ? (crankpinsOf(engine).find((rods) => rods.includes(rod)) ?? [rod]) : [rod];

const valuesOf = (row: Expected, slot: Each, spec: Spec, where: Place): readonly (string | number)[] =>
  slot === "rod" && ON_CRANKPIN.includes(row.quantity)
    ? crankpinsOf(spec.engine).flatMap(([first]) => first ?? [])
    : valuesAlong(slot, spec, where);

/** All places a row asks for, starting from one. */
function expand(row: Expected, from: Place, spec: Spec): Place[] {
  let places: Place[] = [from];
  for (const slot of row.each) {
    if (from[slot] !== undefined) continue;
    places = places.flatMap((place) => valuesOf(row, slot, spec, place).map((value) => ({ ...place, [slot]: value }) as Place));
  }
  return places;
}

function groups(row: Expected, spec: Spec): Place[] {
  const slot = groupSlot(row);
  const where = row.where ?? {};
  return slot === undefined ? [where] : valuesOf(row, slot, spec, where).map((value) => ({ ...where, [slot]: value }) as Place);
}

const tagOf = (row: Expected, index: number): string => `${index}:${row.step}:${row.quantity}`;

const isAt = (row: Expected, at: Place, place: Place, slot: Each, spec: Spec): boolean =>
  at[slot] === place[slot] ||
  (slot === "rod" && at.rod !== undefined && place.rod !== undefined && matesOf(row, place.rod, spec).includes(at.rod));

/** The newest reading that a place asks for. */
function readAt(row: Expected, where: Place, context: RuleContext): LoggedReading | undefined {
  const rods = where.rod === undefined ? [undefined] : matesOf(row, where.rod, context.spec);
  return rods.flatMap((rod) => within(context, row.quantity, rod === undefined ? where : { ...where, rod }, row.condition))[0];
}

function* subjectsOf(rows: (row: Expected) => boolean, spec: Spec, at?: Place): Iterable<Subject> {
  for (const [index, row] of spec.expected.entries()) {
    if (!rows(row)) continue;
    for (const place of groups(row, spec)) {
      const slot = groupSlot(row);
      if (at !== undefined && slot !== undefined && at[slot] !== undefined && !isAt(row, at, place, slot, spec)) continue;
      yield { place, tag: tagOf(row, index) };
    }
  }
}

/** Whether the job has come to this step: it was opened or closed, or the engine is being handed over. */
function isDue(row: Expected, { build }: RuleContext): boolean {
  return build.steps.has(row.step) || build.steps.has("hand_over") || build.handedOver !== undefined;
}

const isWaiting = (context: RuleContext, row: Expected, place: Place): boolean => {
  for (const logged of context.build.waiting.values()) {
    if (logged.reading.quantity !== row.quantity) continue;
    if (Object.entries(place).every(([slot, value]) => logged.reading.place[slot as Each] === value)) return true;
  }
  return false;
};

export const MISSING_READINGS: Rule = {
  id: "missing_reading",
  title: "Every reading a step needs has been taken",
  subjects: (key, { spec }) => {
    if (key.kind === "reading") return subjectsOf((row) => row.quantity === key.name, spec, key.place);
    if (key.kind === "handed_over" || (key.kind === "step" && key.name === "hand_over")) return subjectsOf(() => true, spec);
    return key.kind === "step" ? subjectsOf((row) => row.step === key.name, spec) : [];
  },
  check: ({ place, tag }, context) => {
    const row = context.spec.expected.find((candidate, index) => tagOf(candidate, index) === tag);
    if (row === undefined || !isDue(row, context)) return undefined;
    const wanted = expand(row, place, context.spec);
    const readings = wanted.map((where) => readAt(row, where, context));
    const missing = wanted.filter((_, i) => readings[i] === undefined);
    const name = QUANTITIES[row.quantity].label;
    const group = placeLabel(place);
    const where = group === "" ? "" : ` of ${group}`;
    const base = {
      rule: "missing_reading",
      place,
      value: wanted.length - missing.length,
      limit: `${wanted.length} reading${wanted.length === 1 ? "" : "s"}`,
      unit: null,
      step: row.step,
      evidence: readings.flatMap((logged) => logged?.evidence ?? []),
    };
    if (missing.length === 0) {
      return {
        ...base,
        verdict: "pass",
        why: `${name}${where}: ${wanted.length === 1 ? "taken" : `all ${wanted.length} readings taken`}.`,
      };
    }
    const waiting = missing.filter((at) => isWaiting(context, row, at)).length;
    const which = missing.length === wanted.length ? "" : `: ${list(missing.slice(0, 6).map((at) => rest(at, place)))}`;
    const more = missing.length > 6 && which !== "" ? ` and ${missing.length - 6} more` : "";
    const waits = waiting === 0 ? "" : ` (${waiting} heard, waiting for your yes)`;
    return {
      ...base,
      verdict: "unknown",
      why: `${name}${where}: ${wanted.length === 1 ? "not taken yet" : `${missing.length} of ${wanted.length} readings missing`}${which}${more}${waits}.`,
      remedy: `${sentence(`take ${missing.length === 1 ? "it" : "them"} before the next part covers ${missing.length === 1 ? "it" : "them"}`)}.`,
    };
  },
};

/** The slots of a place beyond its group, as read: "top, thrust". */
function rest(place: Place, group: Place): string {
  const left = Object.fromEntries(Object.entries(place).filter(([slot]) => group[slot as Each] === undefined));
  return placeLabel(left as Place) || placeLabel(place);
}
