// A worked example: an invented side-valve six in inches, with shells and pressure oil. Its limits are common practice; torques and
// figures are the invented shop's.
import { kindSpec } from "../kinds.ts";
import type { Spec } from "../spec.ts";

const source = { kind: "shop" as const, cite: "invented sheet" };
const bolt = { castle: true, unit: "ft_lbf" as const, k: "0.18", lubricant: "engine oil", source };

const BLANK = kindSpec({
  kind: "six",
  bearings: "shell",
  lubrication: "pressure",
  valves: "side",
  units: "inch",
  id: "hollowdene-l30",
  name: "Hollowdene Six, type L-30",
  bore: "3.2500",
  stroke: "4.375",
  mainJournal: "2.2500",
  crankpin: "2.0000",
  pin: "0.8125",
});

export const EXAMPLE_SIX: Spec = {
  ...BLANK,
  note: "Invented engine, a worked example. For a real engine the maker's manual comes first.",
  engine: { ...BLANK.engine, locking: "cotter", headNuts: 22 },
  nominals: { ...BLANK.nominals, bore: ["3.2500", "3.2800"], piston_skirt: ["3.2765"], lobe_lift: ["0.300"] },
  figures: {
    gasket_area: { value: "14.6", unit: "in2", source },
    gasket_thickness: { value: "0.055", unit: "in", source },
    head_recess: { value: "0", unit: "in", source },
  },
  fasteners: {
    rod: { ...bolt, thread: "3/8-24", threadsPerInch: 24, majorDiameter: "0.375", low: "32", high: "37", count: 12 },
    main: { ...bolt, thread: "1/2-20", threadsPerInch: 20, majorDiameter: "0.500", low: "70", high: "80", count: 14 },
    head: {
      ...bolt,
      castle: false,
      thread: "7/16-20",
      threadsPerInch: 20,
      majorDiameter: "0.4375",
      low: "50",
      high: "55",
      count: 22,
      stages: ["20", "38", "52"],
    },
  },
};
