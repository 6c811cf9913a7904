// A blank sheet for a new engine: what is known of it in, a whole sheet out, its limits the trade's usual ones and marked so.
import { pistonClearancePerInch } from "./piston-clearance.ts";
import { bearingAt, type Engine, type Expected, type Limit, type LimitUnit, type Proof, type Source, type Spec } from "./spec.ts";

export interface NewEngine {
  /** Lower case letters, digits and dashes. */
  readonly id: string;
  readonly name: string;
  readonly engine: Engine;
  /** Standard sizes as decimal text, inches; leave out what is not known. */
  readonly bore: string;
  readonly stroke: string;
  readonly mainJournal?: string;
  readonly crankpin?: string;
  readonly pin?: string;
  readonly materials?: Spec["materials"];
}

/** None of these is a specification: each is what the trade usually takes, to be replaced from the maker's manual. */
const USUAL: Source = { kind: "common_practice", cite: "common practice, no source: replace with the maker's figure" };
const from = (cite: string): Source => ({
  kind: "common_practice",
  cite: `common practice: ${cite}: replace with the maker's figure`,
});

type Accept = Limit["accept"];
type Row = readonly [id: string, on: string, unit: LimitUnit, accept: Accept, extra?: Partial<Limit>];

const found = { condition: "as_found" } as const;
const final = { condition: "final" } as const;

/** Sources named are military service manuals whose limits for like engines lie near. */
const ROWS: readonly Row[] = [
  ["bore_out_of_round_rering", "bore_out_of_round", "in", { high: "0.003" }, { ...found, source: from("TM 10-3930-243-34") }],
  ["bore_taper_rering", "bore_taper", "in", { high: "0.006" }, found],
  ["bore_out_of_round_finish", "bore_out_of_round", "in", { high: "0.0005" }, final],
  ["bore_taper_finish", "bore_taper", "in", { high: "0.0005" }, final],
  ["bore_wear_rering", "bore_wear", "in", { high: "0.008" }, found],
  ["journal_wear", "journal_wear", "in", { high: "0.002" }, found],
  ["bearing_taper", "bearing_taper", "in", { high: "0.0005" }, { reject: { high: "0.0010" } }],
  ["journal_out_of_round", "journal_out_of_round", "in", { high: "0.001" }, { source: from("TM 5-3825-226-24") }],
  ["journal_taper", "journal_taper", "in", { high: "0.001" }],
  ["crank_bend", "crank_bend", "in", { high: "0.001" }, { reject: { high: "0.002" }, source: from("TM 10-3930-653-14&P") }],
  [
    "crank_end_float",
    "crank_end_float",
    "in",
    { low: "0.004", high: "0.008" },
    { ...final, reject: { low: "0.004", high: "0.018" } },
  ],
  [
    "rod_side_clearance",
    "rod_side_clearance",
    "in",
    { low: "0.005", high: "0.012" },
    { reject: { low: "0.005", high: "0.020" }, source: from("TM 5-4310-354-14") },
  ],
  [
    "rod_bend",
    "rod_bend_per_inch",
    "in_per_in",
    { high: "0.0005" },
    { reject: { high: "0.0010" }, source: from("TM 9-2815-220-24") },
  ],
  [
    "rod_twist",
    "rod_twist_per_inch",
    "in_per_in",
    { high: "0.0005" },
    { reject: { high: "0.0010" }, source: from("TM 9-2815-220-24") },
  ],
  ["mass_spread", "mass_spread", "g", { high: "5" }, { reject: { high: "8" }, source: from("TM 10-3930-653-14&P") }],
  ["ring_end_gap", "ring_end_gap", "in", { low: "0.0030", high: "0.0045" }, { perInchOf: "bore" }],
  [
    "ring_side_clearance",
    "ring_side_clearance",
    "in",
    { low: "0.0010", high: "0.0025" },
    { reject: { low: "0.0010", high: "0.0040" } },
  ],
  ["piston_to_head", "piston_to_head", "in", { low: "0.040", high: "0.080" }],
  ["chamber_spread", "chamber_spread", "cc", { high: "2" }],
  ["flatness", "flatness", "in", { high: "0.004" }, { source: from("TM 10-3930-653-14&P") }],
  [
    "valve_guide_clearance",
    "valve_guide_clearance",
    "in",
    { low: "0.0015", high: "0.0040" },
    { reject: { low: "0.0015", high: "0.0060" } },
  ],
  ["compression_spread", "compression_spread", "percent", { high: "10" }, { ...final, reject: { high: "15" } }],
  ["flywheel_runout", "flywheel_runout", "in", { high: "0.005" }, { reject: { high: "0.008" } }],
  ["cam_runout", "cam_runout", "in", { high: "0.002" }, { reject: { high: "0.004" } }],
  ["lobe_lift_spread", "lobe_lift_spread", "in", { high: "0.005" }],
  ["coil_clearance", "coil_clearance", "in", { low: "0.050" }],
  ["piston_to_valve", "piston_to_valve", "in", { low: "0.080" }],
  ["crack", "crack_indication", "in", { high: "0" }],
];

/** Only where the sheet says that there are such parts (common practice, no source). */
const OF_SHELLS: readonly Row[] = [
  ["bearing_crush", "bearing_crush", "in", { low: "0.0010", high: "0.0040" }],
  ["bearing_spread", "bearing_spread", "in", { low: "0.005" }],
];
const OF_PUMPS: readonly Row[] = [
  ["oil_pump_end_clearance", "oil_pump_end_clearance", "in", { low: "0.0010", high: "0.0040" }],
  ["oil_pump_tip_clearance", "oil_pump_tip_clearance", "in", { high: "0.010" }],
  ["oil_pump_body_clearance", "oil_pump_body_clearance", "in", { high: "0.010" }],
];

/** What a new sheet has for the parts that its engine has. */
const ofParts = (engine: Engine): Row[] => [
  ...([{ main: 1 }, {}].some((place) => bearingAt(engine, place) === "shell") ? OF_SHELLS : []),
  ...(engine.oiling === "splash" ? [] : OF_PUMPS),
];

/** Bearing clearances by size (common practice, no source): so much per inch of journal. */
const BY_SIZE: readonly Row[] = [
  ["main_clearance", "main_clearance", "in", { low: "0.00075", high: "0.00125" }, { perInchOf: "main_journal" }],
  ["rod_clearance", "rod_clearance", "in", { low: "0.00075", high: "0.00125" }, { perInchOf: "crankpin" }],
];

const RUNNING_PIN: Accept = { low: "0.0003", high: "0.0008" };
const PUSHED_PIN: Accept = { low: "-0.0002", high: "0.0003" };
/** Where the pin turns, and where it only sits, by what holds it (common practice, no source). */
const PIN_FITS: Readonly<Record<NonNullable<Engine["pin"]>, readonly Row[]>> = {
  floating: [
    ["pin_fit_bush", "pin_fit_bush", "in", RUNNING_PIN],
    ["pin_fit_boss", "pin_fit_boss", "in", PUSHED_PIN],
  ],
  rod: [["pin_fit_boss", "pin_fit_boss", "in", RUNNING_PIN]],
  piston: [
    ["pin_fit_bush", "pin_fit_bush", "in", RUNNING_PIN],
    ["pin_fit_boss", "pin_fit_boss", "in", PUSHED_PIN],
  ],
};

const RUNS_ON: Readonly<Record<string, { main?: number }>> = { main_clearance: { main: 1 }, rod_clearance: {} };

const limitOf = ([id, on, unit, accept, extra]: Row): Limit => ({ id, on, unit, accept, source: USUAL, ...extra });

const EXPECTED: readonly Expected[] = [
  { step: "bores", quantity: "bore_diameter", condition: "as_found", each: ["cylinder", "depth", "axis"] },
  { step: "crankshaft", quantity: "main_journal_diameter", each: ["main"] },
  { step: "crankshaft", quantity: "crankpin_diameter", each: ["rod"] },
  { step: "main_bearings", quantity: "bearing_clearance", each: ["main"] },
  { step: "end_float", quantity: "crank_end_float", each: [] },
  { step: "finish_bores", quantity: "bore_diameter", condition: "final", each: ["cylinder"] },
  { step: "pistons", quantity: "piston_skirt_diameter", each: ["cylinder"] },
  { step: "rings", quantity: "ring_end_gap", each: ["cylinder", "ring"] },
  { step: "rod_fit", quantity: "bearing_clearance", each: ["rod"] },
  { step: "deck", quantity: "deck_protrusion", condition: "final", each: ["cylinder"] },
  { step: "valves", quantity: "valve_lash", condition: "final", each: ["cylinder", "valve"] },
  { step: "first_run", quantity: "compression_pressure", condition: "final", each: ["cylinder"] },
];

const proof = (id: string, step: Proof["step"], each: Proof["each"], title: string): Proof => ({
  id,
  step,
  each,
  title,
  source: USUAL,
});

const PROOFS: readonly Proof[] = [
  proof("cap_marks", "teardown", "rod", "Rod and cap numbers before the cap comes off"),
  proof("timing_marks", "teardown", "engine", "Timing marks in line"),
  proof("bore_hatch", "finish_bores", "cylinder", "Bore wall with its cross-hatch"),
  proof("front_mark", "piston_assembly", "cylinder", "Front mark on the piston crown, rod numbers beside it"),
];

const nominal = (text: string | undefined): string[] | undefined => (text === undefined ? undefined : [text]);

function nominals({ bore, stroke, mainJournal, crankpin, pin }: NewEngine): Spec["nominals"] {
  const sizes = {
    bore: [bore],
    stroke: [stroke],
    main_journal: nominal(mainJournal),
    crankpin: nominal(crankpin),
    pin: nominal(pin),
  };
  return Object.fromEntries(Object.entries(sizes).filter(([, value]) => value !== undefined));
}

/** The usual piston clearance of its material; none where nobody knows the material. */
function pistonRow(materials: Spec["materials"]): Row[] {
  const accept = pistonClearancePerInch(materials);
  return accept === undefined ? [] : [["piston_clearance", "piston_clearance", "in", accept, { perInchOf: "bore" }]];
}

/** A whole, valid sheet, version 1. Torques are left out on purpose: only the maker's manual can give them. */
export function blankSpec(known: NewEngine): Spec {
  const sizes = nominals(known);
  const materials = known.materials ?? { block: "grey_iron", piston: "grey_iron", crank: "steel" };
  const bySize = BY_SIZE.filter(([id, , , , extra]) => {
    // What a plain bearing runs with is nothing for rollers.
    const roller = RUNS_ON[id] !== undefined && bearingAt(known.engine, RUNS_ON[id]) === "roller";
    return !roller && extra?.perInchOf !== undefined && sizes[extra.perInchOf] !== undefined;
  });
  return {
    format: "thoubook-spec/1",
    id: known.id,
    version: 1,
    name: known.name,
    note: "New sheet: its limits are common practice, not this engine's. Put the maker's figures in and name the page.",
    engine: { ringClock: "front", ...known.engine },
    materials,
    nominals: sizes,
    figures: {},
    oversizes: ["0.010", "0.020", "0.030", "0.040", "0.050", "0.060"],
    undersizes: ["0.010", "0.020", "0.030"],
    fasteners: {},
    limits: [
      ...ROWS,
      ...ofParts(known.engine),
      ...PIN_FITS[known.engine.pin ?? "floating"],
      ...pistonRow(materials),
      ...bySize,
    ].map(limitOf),
    expected: [...EXPECTED],
    proofs:
      known.engine.oiling === "pressure"
        ? [...PROOFS]
        : [...PROOFS, proof("dipper", "splash", "rod", "Dipper mouth with the way of turning")],
  };
}
