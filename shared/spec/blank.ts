// A blank sheet for a new engine: what is known of it in, a whole sheet out, its limits the trade's usual ones and marked so.
import { blankExpected, blankProofs } from "./blank/asks.ts";
import { blankLimits } from "./blank/limits.ts";
import type { Engine } from "./engine.ts";
import type { UnitSystem } from "./sizes.ts";
import type { Spec } from "./spec.ts";

/** Standard sizes as decimal text in the sheet's own system, or with their unit; what is not known is left out. */
export interface KnownSizes {
  readonly bore?: string;
  readonly stroke?: string;
  readonly mainJournal?: string;
  readonly crankpin?: string;
  readonly pin?: string;
}

export interface NewEngine extends KnownSizes {
  /** Lower case letters, digits and dashes. */
  readonly id: string;
  readonly name: string;
  readonly engine: Engine;
  /** Inch where nothing is said. */
  readonly units?: UnitSystem;
  readonly materials?: Spec["materials"];
}

const nominal = (text: string | undefined): string[] | undefined => (text === undefined ? undefined : [text]);

function nominals({ bore, stroke, mainJournal, crankpin, pin }: KnownSizes): Spec["nominals"] {
  const sizes = {
    bore: nominal(bore),
    stroke: nominal(stroke),
    main_journal: nominal(mainJournal),
    crankpin: nominal(crankpin),
    pin: nominal(pin),
  };
  return Object.fromEntries(Object.entries(sizes).filter(([, value]) => value !== undefined));
}

/** Steps in which parts for rebuilt engines are usually to be had (common practice, no source). */
const STEPS_OF = {
  inch: { over: ["0.010", "0.020", "0.030", "0.040", "0.050", "0.060"], under: ["0.010", "0.020", "0.030"] },
  metric: { over: ["0.25", "0.50", "0.75", "1.00", "1.25", "1.50"], under: ["0.25", "0.50", "0.75"] },
} as const;

const NOTE = "New sheet: its limits are common practice, not this engine's. Put the maker's figures in and name the page.";
const NO_SIZES = " It has no bore yet: sizes are asked about until it has.";

/** A whole, valid sheet, version 1. Torques are left out on purpose: only the maker's manual can give them. */
export function blankSpec(known: NewEngine): Spec {
  const { id, name, units } = known;
  const engine: Engine = { ringClock: "front", ...known.engine };
  const materials = known.materials ?? { block: "grey_iron", piston: "grey_iron", crank: "steel" };
  const sizes = nominals(known);
  const steps = STEPS_OF[units ?? "inch"];
  return {
    format: "thoubook-spec/1",
    id,
    version: 1,
    name,
    note: `${NOTE}${known.bore === undefined ? NO_SIZES : ""}`,
    ...(units === undefined ? {} : { units }),
    engine,
    materials,
    nominals: sizes,
    figures: {},
    oversizes: [...steps.over],
    undersizes: [...steps.under],
    fasteners: {},
    limits: blankLimits({ ...(units === undefined ? {} : { units }), engine, materials, nominals: sizes }),
    expected: blankExpected(engine),
    proofs: blankProofs(engine),
  };
}
