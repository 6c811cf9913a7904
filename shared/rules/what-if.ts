// "What if": change a number, see every figure and verdict that would move beside today's. Nothing is logged.
import type { Build, LoggedReading } from "../build/build.ts";
import { readingKey } from "../build/build.ts";
import { draftOf } from "../build/draft.ts";
import type { List } from "../build/layers.ts";
import { settle } from "../build/standing.ts";
import { clearanceAfterShims } from "../compute/bearing.ts";
import { inch, plus } from "../compute/measure.ts";
import { type Place, placeKey } from "../places/places.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import type { QuantityId } from "../quantities/types.ts";
import { bearingAt } from "../spec/spec.ts";
import type { UnitId } from "../units/units.ts";
import { RuleContext } from "./context.ts";
import { Evaluator } from "./evaluator.ts";
import { FIGURES } from "./figures/figures.ts";
import { nominal, upTo, valueIn } from "./figures/pick.ts";
import type { Finding } from "./finding.ts";

/** A supposed change. */
export type Supposition =
  | {
      readonly kind: "reading";
      readonly quantity: QuantityId;
      readonly place: Place;
      readonly value: number;
      readonly unit?: UnitId;
    }
  /** The same shim out of both sides of a cap; negative to add. */
  | { readonly kind: "shims"; readonly place: Place; readonly removeEachSide: number }
  /** All bores to one oversize, finished to size. */
  | { readonly kind: "bore"; readonly oversize: number };

export interface Outcome {
  readonly rule: string;
  readonly place: Place;
  /** Undefined where the rule has nothing to say then. */
  readonly before: Finding | undefined;
  readonly after: Finding | undefined;
}

export interface Supposed {
  /** Findings of today, and as they would be; only those that differ in value or verdict. */
  readonly outcomes: readonly Outcome[];
  readonly before: readonly Finding[];
  readonly after: readonly Finding[];
}

interface Supposal {
  readonly quantity: QuantityId;
  readonly place: Place;
  readonly value: number;
  readonly unit: UnitId;
}

function supposals(build: Build, change: Supposition): Supposal[] {
  if (change.kind === "reading") {
    return [
      {
        quantity: change.quantity,
        place: change.place,
        value: change.value,
        unit: change.unit ?? QUANTITIES[change.quantity].unit,
      },
    ];
  }
  if (change.kind === "bore") {
    const standard = nominal(build.spec, "bore");
    if (standard === undefined) throw new RangeError("Expected a standard bore on the spec sheet, got none");
    const size = plus(inch(standard), inch(change.oversize));
    const finished = upTo(build.spec.engine.cylinders).map(
      (cylinder): Supposal => ({ quantity: "bore_diameter", place: { cylinder }, value: size, unit: "in" }),
    );
    return [{ quantity: "bore_oversize", place: {}, value: change.oversize, unit: "in" }, ...finished];
  }
  const kind = bearingAt(build.spec.engine, change.place);
  if (kind !== "poured") throw new RangeError(`Expected a poured bearing to shim, got ${kind}`);
  const figure = FIGURES.get(change.place.main === undefined ? "rod_clearance" : "main_clearance");
  const now = figure?.value(change.place, new RuleContext(build));
  if (now === undefined)
    throw new RangeError(`Expected a bearing clearance on record at ${placeKey(change.place) || "the place"}, got none`);
  const value = clearanceAfterShims(inch(now.value), inch(change.removeEachSide));
  return [{ quantity: "bearing_clearance", place: change.place, value, unit: "in" }];
}

/** A copy of the build with one more finished reading; the build itself is not touched. */
function suppose(build: Build, { quantity, place, value, unit }: Supposal): void {
  build.count += 1;
  const key = readingKey(quantity, place);
  const list: List<LoggedReading> = build.byKey.get(key) ?? [];
  // A finished size takes the place of trial and finished ones of the same key, and of every finer place of the same bore.
  for (const earlier of standingUnder(build, quantity, place)) {
    earlier.status = "struck";
    settle(build, readingKey(earlier.reading.quantity, earlier.reading.place), earlier.condition, earlier);
  }
  const logged: LoggedReading = {
    id: `supposed-${build.count}`,
    order: build.count,
    at: build.opened,
    by: "supposed",
    device: "supposed",
    reading: { quantity, place, value, unit, digits: String(value), implied: [], do: "accept", span: [0, 0] },
    condition: "final",
    status: "counted",
    revisions: [],
    evidence: [],
  };
  list.push(logged);
  build.byKey.set(key, list);
  settle(build, key, logged.condition, logged);
  build.readings.set(logged.id, logged);
  const all = build.byQuantity.get(quantity);
  if (all === undefined) build.byQuantity.set(quantity, [logged]);
  else all.push(logged);
}

function standingUnder(build: Build, quantity: QuantityId, place: Place): LoggedReading[] {
  const slots = Object.entries(place);
  return [...(build.byQuantity.get(quantity) ?? [])].filter(
    (logged) =>
      logged.status === "counted" &&
      logged.condition !== "as_found" &&
      slots.every(([slot, value]) => logged.reading.place[slot as keyof Place] === value),
  );
}

const keyOf = (finding: Finding): string => `${finding.rule}|${placeKey(finding.place)}`;

function differs(a: Finding | undefined, b: Finding | undefined): boolean {
  return a?.verdict !== b?.verdict || a?.value !== b?.value || a?.limit !== b?.limit;
}

/**
 * What would change if these numbers were so: today's findings beside those of the supposed build.
 * Nothing of the build is touched; what is supposed counts as finished and newest.
 * @throws RangeError when a change rests on something the build does not know
 */
export function whatIf(build: Build, changes: readonly Supposition[]): Supposed {
  const copy = draftOf(build);
  for (const change of changes) for (const supposal of supposals(copy, change)) suppose(copy, supposal);
  const before = new Evaluator(build).findings();
  const after = new Evaluator(copy).findings();
  const [was, will] = [new Map(before.map((row) => [keyOf(row), row])), new Map(after.map((row) => [keyOf(row), row]))];
  const outcomes = [...new Set([...was.keys(), ...will.keys()])].flatMap((key) => {
    const [a, b] = [was.get(key), will.get(key)];
    const either = b ?? a;
    return either === undefined || !differs(a, b) ? [] : [{ rule: either.rule, place: either.place, before: a, after: b }];
  });
  return { outcomes, before, after };
}

/** The value a supposition starts from: what stands now, if anything. */
export function standing(build: Build, quantity: QuantityId, place: Place): number | undefined {
  const logged = new RuleContext(build).latest(quantity, place);
  return logged === undefined ? undefined : valueIn(logged, QUANTITIES[quantity].unit);
}
