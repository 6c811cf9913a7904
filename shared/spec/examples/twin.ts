// A worked example: an invented opposed twin in millimetres, air-cooled, its rods on rollers. Its limits are common practice; torques
// and figures are the invented shop's.
import { kindSpec } from "../kinds.ts";
import type { Spec } from "../spec.ts";

const source = { kind: "shop" as const, cite: "invented sheet" };

const BLANK = kindSpec({
  kind: "twin",
  bearings: "roller",
  lubrication: "pressure",
  valves: "overhead",
  units: "metric",
  id: "saltmarsh-k6",
  name: "Saltmarsh Twin, type K-6",
  materials: { block: "grey_iron", piston: "piston_alloy", crank: "steel" },
  bore: "68.00",
  stroke: "68.0",
  pin: "18.00",
});

export const EXAMPLE_TWIN: Spec = {
  ...BLANK,
  note: "Invented engine, a worked example. For a real engine the maker's manual comes first.",
  nominals: { ...BLANK.nominals, bore: ["68.00", "68.50"], piston_skirt: ["68.44"], lobe_lift: ["7.20"] },
  figures: {
    gasket_area: { value: "38.5", unit: "cm2", source },
    gasket_thickness: { value: "1.20", unit: "mm", source },
    head_recess: { value: "0.50", unit: "mm", source },
  },
  fasteners: {
    head: {
      thread: "M8x1.25",
      pitch: "1.25",
      majorDiameter: "8",
      castle: false,
      low: "23",
      high: "26",
      unit: "N_m",
      stages: ["12", "24"],
      k: "0.18",
      lubricant: "engine oil",
      proof: "600 MPa",
      count: 4,
      source,
    },
  },
  limits: [
    ...BLANK.limits,
    {
      id: "compression_ratio",
      on: "compression_ratio",
      accept: { low: "5.4", high: "5.7" },
      unit: "ratio",
      source,
    },
  ],
};
