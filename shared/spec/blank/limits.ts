// The limits of a blank sheet, by what the engine has: what the trade usually takes, in inches or millimetres.
import { type Engine, isPlainAt, suits, type Trait } from "../engine.ts";
import { pistonClearancePerInch } from "../piston-clearance.ts";
import { lengthUnit } from "../sizes.ts";
import type { Limit, LimitUnit, Source, Spec } from "../spec.ts";

/** None of these is a specification: each is what the trade usually takes, to be replaced from the maker's manual. */
export const USUAL: Source = { kind: "common_practice", cite: "common practice, no source: replace with the maker's figure" };
const from = (cite: string): Source => ({
  kind: "common_practice",
  cite: `common practice: ${cite}: replace with the maker's figure`,
});

type Accept = Limit["accept"];

/** Which engines have the limit: by what they have, and where they run in plain bearings. */
interface Only {
  readonly needs?: readonly Trait[];
  /** One of these places is no rolling bearing. */
  readonly plain?: readonly { readonly main?: number }[];
}
type Row = readonly [id: string, on: string, unit: LimitUnit, accept: Accept, extra?: Partial<Limit>, only?: Only];

const found = { condition: "as_found" } as const;
const final = { condition: "final" } as const;
const VALVES: Only = { needs: ["valves"] };
const SHELLS: Only = { needs: ["shell"] };
const ROLLERS: Only = { needs: ["roller"] };
const PUMP: Only = { needs: ["oil_pump"] };

/** Sources named are military service manuals whose limits for like engines lie near. */
const ROWS: readonly Row[] = [
  ["bore_out_of_round_rering", "bore_out_of_round", "in", { high: "0.003" }, { ...found, source: from("TM 10-3930-243-34") }],
  ["bore_taper_rering", "bore_taper", "in", { high: "0.006" }, found],
  ["bore_out_of_round_finish", "bore_out_of_round", "in", { high: "0.0005" }, final],
  ["bore_taper_finish", "bore_taper", "in", { high: "0.0005" }, final],
  ["bore_wear_rering", "bore_wear", "in", { high: "0.008" }, found],
  ["journal_wear", "journal_wear", "in", { high: "0.002" }, found],
  ["bearing_taper", "bearing_taper", "in", { high: "0.0005" }, { reject: { high: "0.0010" } }, { plain: [{}, { main: 1 }] }],
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
    VALVES,
  ],
  ["compression_spread", "compression_spread", "percent", { high: "10" }, { ...final, reject: { high: "15" } }],
  ["flywheel_runout", "flywheel_runout", "in", { high: "0.005" }, { reject: { high: "0.008" } }],
  ["cam_runout", "cam_runout", "in", { high: "0.002" }, { reject: { high: "0.004" } }, VALVES],
  ["lobe_lift_spread", "lobe_lift_spread", "in", { high: "0.005" }, {}, VALVES],
  ["coil_clearance", "coil_clearance", "in", { low: "0.050" }, {}, VALVES],
  ["piston_to_valve", "piston_to_valve", "in", { low: "0.080" }, {}, { needs: ["valves_in_head"] }],
  ["crack", "crack_indication", "in", { high: "0" }],
  ["bearing_crush", "bearing_crush", "in", { low: "0.0010", high: "0.0040" }, {}, SHELLS],
  ["bearing_spread", "bearing_spread", "in", { low: "0.005" }, {}, SHELLS],
  ["main_housing_out_of_round", "main_housing_out_of_round", "in", { high: "0.0010" }, {}, SHELLS],
  ["rod_housing_out_of_round", "rod_housing_out_of_round", "in", { high: "0.0010" }, {}, SHELLS],
  ["roller_clearance", "roller_clearance", "in", { low: "0.0002", high: "0.0010" }, {}, ROLLERS],
  ["leak_down", "leak_down", "percent", { high: "20" }, { ...final, reject: { high: "30" } }],
  ["jacket_drop", "jacket_drop", "psi", { high: "0" }, {}, { needs: ["water"] }],
  ["run_in_temperature", "run_in_temperature", "degC", { high: "95" }, {}, { needs: ["water"] }],
  ["oil_pump_end_clearance", "oil_pump_end_clearance", "in", { low: "0.0010", high: "0.0040" }, {}, PUMP],
  ["oil_pump_tip_clearance", "oil_pump_tip_clearance", "in", { high: "0.010" }, {}, PUMP],
  ["oil_pump_body_clearance", "oil_pump_body_clearance", "in", { high: "0.010" }, {}, PUMP],
];

/** Bearing clearances by size (common practice, no source): so much per inch of journal. */
const BY_SIZE: readonly Row[] = [
  [
    "main_clearance",
    "main_clearance",
    "in",
    { low: "0.00075", high: "0.00125" },
    { perInchOf: "main_journal" },
    { plain: [{ main: 1 }] },
  ],
  ["rod_clearance", "rod_clearance", "in", { low: "0.00075", high: "0.00125" }, { perInchOf: "crankpin" }, { plain: [{}] }],
];

const RUNNING_PIN: Accept = { low: "0.0003", high: "0.0008" };
const PUSHED_PIN: Accept = { low: "-0.0002", high: "0.0003" };
const IN_BUSH: readonly Row[] = [
  ["pin_fit_bush", "pin_fit_bush", "in", RUNNING_PIN],
  ["pin_fit_boss", "pin_fit_boss", "in", PUSHED_PIN],
];
/** Where the pin turns, and where it only sits, by what holds it (common practice, no source). */
const PIN_FITS: Readonly<Record<NonNullable<Engine["pin"]>, readonly Row[]>> = {
  floating: IN_BUSH,
  rod: [["pin_fit_boss", "pin_fit_boss", "in", RUNNING_PIN]],
  piston: IN_BUSH,
};

/** The usual piston clearance of its material; none where nobody knows the material. */
function pistonRow(materials: Spec["materials"]): Row[] {
  const accept = pistonClearancePerInch(materials);
  return accept === undefined ? [] : [["piston_clearance", "piston_clearance", "in", accept, { perInchOf: "bore" }]];
}

const has = (engine: Engine, { needs, plain }: Only = {}): boolean =>
  suits(engine, needs) && (plain === undefined || plain.some((place) => isPlainAt(engine, place)));

type Ends = Limit["accept"];
/** Inches in millimetres to the thousandth. */
const inMm = ({ low, high }: Ends): Ends => ({
  ...(low === undefined ? {} : { low: (Number(low) * 25.4).toFixed(3) }),
  ...(high === undefined ? {} : { high: (Number(high) * 25.4).toFixed(3) }),
});

function limitOf([id, on, unit, accept, extra]: Row, sheet: Pick<Spec, "units">): Limit {
  const limit: Limit = { id, on, unit, accept, source: USUAL, ...extra };
  if (unit !== "in" || lengthUnit(sheet) === "in") return limit;
  // A share of a size is the same in both systems.
  if (limit.perInchOf !== undefined) return { ...limit, unit: "mm" };
  return { ...limit, unit: "mm", accept: inMm(accept), ...(limit.reject === undefined ? {} : { reject: inMm(limit.reject) }) };
}

/** The limits for an engine; those by a size that the sheet has not got are left out. */
export function blankLimits(sheet: Pick<Spec, "units" | "engine" | "materials" | "nominals">): Limit[] {
  const { engine, materials, nominals } = sheet;
  const bySize = BY_SIZE.filter(([, , , , extra]) => extra?.perInchOf !== undefined && nominals[extra.perInchOf] !== undefined);
  const byBore = [...ROWS, ...pistonRow(materials)].filter(
    ([, , , , extra]) => extra?.perInchOf !== "bore" || nominals.bore !== undefined,
  );
  return [...byBore, ...PIN_FITS[engine.pin ?? "floating"], ...bySize]
    .filter(([, , , , , only]) => has(engine, only))
    .map((row) => limitOf(row, sheet));
}
