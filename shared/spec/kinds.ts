// Engines of the usual kinds, to start a sheet from: how many cylinders, how they lie, and what else follows of it (common practice,
// no source). All of it is the shop's to change on the sheet.
import { blankSpec, type KnownSizes } from "./blank.ts";
import type { Engine } from "./engine.ts";
import type { UnitSystem } from "./sizes.ts";
import type { Spec } from "./spec.ts";

type Shape = Pick<
  Engine,
  "arrangement" | "cylinders" | "banks" | "crankpins" | "heads" | "mains" | "firingOrder" | "cooling" | "ignition"
> & {
  /** What is most usual of such an engine where nothing else is said. */
  readonly layout: Engine["layout"];
};

export const KINDS = {
  single: {
    arrangement: "single",
    cylinders: 1,
    heads: "one",
    mains: 2,
    firingOrder: [1],
    cooling: "water",
    ignition: "magneto",
    layout: "side_valve",
  },
  twin: {
    arrangement: "opposed",
    cylinders: 2,
    banks: [
      { name: "left", cylinders: [1] },
      { name: "right", cylinders: [2] },
    ],
    heads: "cylinder",
    mains: 2,
    firingOrder: [1, 2],
    cooling: "air",
    ignition: "magneto",
    layout: "overhead_valve",
  },
  four: {
    arrangement: "in_line",
    cylinders: 4,
    heads: "one",
    mains: 3,
    firingOrder: [1, 3, 4, 2],
    cooling: "water",
    ignition: "magneto",
    layout: "side_valve",
  },
  six: {
    arrangement: "in_line",
    cylinders: 6,
    heads: "one",
    mains: 7,
    firingOrder: [1, 5, 3, 6, 2, 4],
    cooling: "water",
    ignition: "coil",
    layout: "side_valve",
  },
  v8: {
    arrangement: "vee",
    cylinders: 8,
    banks: [
      { name: "left", cylinders: [1, 3, 5, 7] },
      { name: "right", cylinders: [2, 4, 6, 8] },
    ],
    crankpins: [
      [1, 2],
      [3, 4],
      [5, 6],
      [7, 8],
    ],
    heads: "bank",
    mains: 5,
    firingOrder: [1, 8, 4, 3, 6, 5, 7, 2],
    cooling: "water",
    ignition: "coil",
    layout: "overhead_valve",
  },
} as const satisfies Record<string, Shape>;
export type Kind = keyof typeof KINDS;

export const KIND_BEARINGS = ["poured", "shell", "roller"] as const;
export const KIND_LUBRICATION = ["splash", "pressure"] as const;
/** As said, and as the sheet has it. */
export const KIND_VALVES = {
  side: "side_valve",
  overhead: "overhead_valve",
  "overhead-cam": "overhead_cam",
  ports: "two_stroke",
} as const satisfies Record<string, Engine["layout"]>;

export interface KindChoice extends KnownSizes {
  readonly kind: Kind;
  readonly bearings?: (typeof KIND_BEARINGS)[number];
  readonly lubrication?: (typeof KIND_LUBRICATION)[number];
  readonly valves?: keyof typeof KIND_VALVES;
  readonly units?: UnitSystem;
  readonly materials?: Spec["materials"];
  readonly id?: string;
  readonly name?: string;
}

/** The engine of a kind. Where big ends run on rollers the crank is taken for built up and the case for split: no caps. */
export function kindEngine({ kind, bearings = "poured", lubrication = "splash", valves }: KindChoice): Engine {
  const shape: Shape = structuredClone(KINDS[kind]) as Shape;
  const layout = valves === undefined ? shape.layout : KIND_VALVES[valves];
  const rolling = bearings === "roller";
  return {
    ...shape,
    layout,
    rings: layout === "two_stroke" ? ["top", "second"] : ["top", "second", "oil"],
    numberedFrom: "front",
    bearings: rolling ? { main: "ball", rod: "roller" } : bearings,
    oiling: lubrication,
    ...(layout === "two_stroke" ? {} : { lash: layout === "overhead_cam" ? ("shims" as const) : ("screws" as const) }),
    locking: bearings === "poured" ? "cotter" : "none",
    rodNuts: rolling ? 0 : 2,
    mainNuts: rolling ? 0 : 2,
    headNuts: shape.cylinders === 1 || shape.heads === "cylinder" ? 4 : 14,
  };
}

/** The engine with another number of cylinders: how those lie and fire, and which crankpin carries which, is not known any more. */
export function withCylinders(engine: Engine, cylinders: number): Engine {
  if (cylinders === engine.cylinders) return engine;
  const { banks: _banks, crankpins: _crankpins, arrangement: _arrangement, ...rest } = engine;
  return { ...rest, cylinders, firingOrder: [] };
}

/** A blank sheet for an engine of a kind. */
export function kindSpec(choice: KindChoice): Spec {
  const { kind, id = `new-${kind}`, name = `New ${kind}`, materials, units, bore, stroke, mainJournal, crankpin, pin } = choice;
  const sizes = Object.entries({ bore, stroke, mainJournal, crankpin, pin }).filter(([, size]) => size !== undefined);
  return blankSpec({
    id,
    name,
    engine: kindEngine(choice),
    ...(units === undefined ? {} : { units }),
    ...(materials === undefined ? {} : { materials }),
    ...(Object.fromEntries(sizes) as KnownSizes),
  });
}
