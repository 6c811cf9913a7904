// The demo engine's spec sheet: an invented engine, every figure made up for the demonstration. Not any real make.
import { DEMO_EXPECTED } from "./demo/expected.ts";
import { DEMO_FASTENERS } from "./demo/fasteners.ts";
import { DEMO_LIMITS } from "./demo/limits.ts";
import { DEMO_PROOFS } from "./demo/proofs.ts";
import type { Spec } from "./spec.ts";

const shop = (cite: string) => ({ kind: "shop" as const, cite });

export const DEMO_SPEC: Spec = {
  format: "thoubook-spec/1",
  id: "bramblecote-f22",
  version: 1,
  name: "Bramblecote Four, type F-22",
  note: "Invented engine for the demonstration build. For a real engine the maker's manual comes first.",
  engine: {
    layout: "side_valve",
    cylinders: 4,
    mains: 3,
    rings: ["top", "second", "oil"],
    firingOrder: [1, 3, 4, 2],
    numberedFrom: "front",
    bearings: "poured",
    oiling: "splash",
    ringClock: "front",
    rodNuts: 2,
    mainNuts: 2,
    headNuts: 14,
  },
  materials: { block: "grey_iron", piston: "grey_iron", crank: "steel" },
  nominals: {
    bore: ["3.8750", "3.9050"],
    stroke: ["4.500"],
    main_journal: ["2.0000"],
    crankpin: ["1.8750", "1.8650"],
    pin: ["0.8750"],
    piston_skirt: ["3.9012"],
    valve_stem: ["0.3720"],
    lobe_lift: ["0.280"],
    valve_spring_length: ["2.0625"],
    main_housing: ["2.2500"],
    rod_housing: ["2.1250"],
  },
  figures: {
    gasket_area: { value: "19.8", unit: "in2", source: shop("measured off the invented gasket") },
    gasket_thickness: { value: "0.058", unit: "in", source: shop("invented sheet") },
    head_recess: { value: "0.010", unit: "in", source: shop("invented sheet") },
    spring_length: { value: "1.750", unit: "in", source: shop("invented sheet") },
    compression_ratio: { value: "4.60", unit: "", source: shop("invented sheet") },
    rod_bolt_grip: { value: "2.5", unit: "in", source: shop("invented sheet") },
    main_bolt_grip: { value: "3.5", unit: "in", source: shop("invented sheet") },
    shim_spare: { value: "0.001", unit: "in", source: shop("invented sheet") },
    shim_lamination: { value: "0.002", unit: "in", source: shop("invented sheet") },
  },
  oversizes: ["0.010", "0.020", "0.030", "0.040", "0.050", "0.060"],
  undersizes: ["0.010", "0.020", "0.030"],
  fasteners: DEMO_FASTENERS,
  limits: DEMO_LIMITS,
  expected: DEMO_EXPECTED,
  proofs: DEMO_PROOFS,
};
