// Where a formula ends: what lies outside is refused with out_of_domain and says so, and what lies just inside is answered.
import { describe, expect, it } from "vitest";
import { COMPUTATIONS } from "../../../shared/compute/registry.ts";
import { codeOf, figureOf, partOf, refusalOf } from "./ask.ts";

/** What is refused, and beside it the nearest that is answered. */
const EDGES: Readonly<Record<string, readonly [refused: string, answered: string]>> = {
  "a thread as deep as its bolt": [
    "stress-area diameter=0.03in threads-per-inch=24",
    "stress-area diameter=0.05in threads-per-inch=24",
  ],
  "a bolt of no size": ["stress-area diameter=-0.375in threads-per-inch=24", "stress-area diameter=0.375in threads-per-inch=24"],
  "a metric thread as deep as its bolt": [
    "metric-stress-area diameter=1mm pitch=1.25mm",
    "metric-stress-area diameter=8mm pitch=1.25mm",
  ],
  "a negative bore squared": [
    "compression-ratio bore=-4in stroke=4in chamber=100cc",
    "compression-ratio bore=4in stroke=4in chamber=100cc",
  ],
  "a negative stroke": [
    "compression-ratio bore=4in stroke=-4in chamber=100cc",
    "compression-ratio bore=4in stroke=4in chamber=100cc",
  ],
  "a negative chamber": [
    "compression-ratio bore=4in stroke=4in chamber=-10cc protrusion=-0.2in",
    "compression-ratio bore=4in stroke=4in chamber=0cc protrusion=-0.2in",
  ],
  "a negative gasket": [
    "compression-ratio bore=4in stroke=4in chamber=100cc gasket-thickness=-0.05in",
    "compression-ratio bore=4in stroke=4in chamber=100cc gasket-thickness=0.05in",
  ],
  "an instrument without a step": [
    "capability resolution=0in low=0in high=1in",
    "capability resolution=0.001in low=0in high=1in",
  ],
  "an instrument with a negative step": [
    "capability resolution=-0.001in low=0in high=1in",
    "capability resolution=0.001in low=0in high=1in",
  ],
  "no tolerance": ["capability resolution=0.001in low=1in high=1in", "capability resolution=0.001in low=1in high=1.01in"],
  "a spring beyond its free length": [
    "spring-force length=2.6in force-1=40lbf length-1=2in force-2=80lbf length-2=1.5in",
    "spring-force length=2.5in force-1=40lbf length-1=2in force-2=80lbf length-2=1.5in",
  ],
  "a spring that pulls when pressed": [
    "spring-force length=1.8in force-1=40lbf length-1=2in force-2=30lbf length-2=1.5in",
    "spring-force length=1.8in force-1=40lbf length-1=2in force-2=50lbf length-2=1.5in",
  ],
  "a seat square to the head": [
    "seat-width outer=1.6in inner=1.5in angle=90deg",
    "seat-width outer=1.6in inner=1.5in angle=75deg",
  ],
  "a seat turned inside out": [
    "seat-width outer=1.5in inner=1.6in angle=45deg",
    "seat-width outer=1.6in inner=1.5in angle=45deg",
  ],
  "an extension of negative length": [
    "extension torque=35ft_lbf length=14in extension=-3in",
    "extension torque=35ft_lbf length=14in extension=0in",
  ],
  "a wrench of negative length": [
    "extension torque=35ft_lbf length=-14in extension=3in",
    "extension torque=35ft_lbf length=14in extension=3in",
  ],
  "a gasket below nothing": [
    "gasket-for-clearance clearance=0.02in recess=0.05in protrusion=0in",
    "gasket-for-clearance clearance=0.05in recess=0.05in protrusion=0in",
  ],
  "no limit to conform to": ["conformance value=1in uncertainty=0.1in", "conformance value=1in uncertainty=0.1in high=2in"],
  "a coverage of nothing": [
    "conformance value=1in uncertainty=0.1in high=2in coverage=0",
    "conformance value=1in uncertainty=0.1in high=2in coverage=2",
  ],
  "a journal of no length": [
    "journal-form readings=2in,2in,2in,2in length=0in",
    "journal-form readings=2in,2in,2in,2in length=1in",
  ],
  "a bore of negative size": [
    "displacement bore=-3.5in stroke=3in cylinders=6",
    "displacement bore=3.5in stroke=3in cylinders=6",
  ],
  "half a cylinder": ["displacement bore=3.5in stroke=3in cylinders=0.5", "displacement bore=3.5in stroke=3in cylinders=1"],
  "a nut past its slot": ["castle-nut short=-5deg threads-per-inch=24", "castle-nut short=0deg threads-per-inch=24"],
  "a nut without slots": ["slot-pitch slots=0 holes=1", "slot-pitch slots=6 holes=1"],
  "colder than nothing": [
    "temperature-correction length=1in temperature=-300degC material=steel",
    "temperature-correction length=1in temperature=-20degC material=steel",
  ],
  "a grade between the names": ["tolerance-grade size=50mm grade=IT07", "tolerance-grade size=50mm grade=IT7"],
  "a cylinder above its supply": ["leak-down supply=80psi cylinder=81psi", "leak-down supply=80psi cylinder=80psi"],
  "a rod no longer than its throw": ["piston-travel throw=2in rod=2in angle=90", "piston-travel throw=2in rod=2.01in angle=90"],
  "a hub inside its shaft": [
    "interference interference=.002in diameter=2in outside=2in hub-material=steel shaft-material=steel",
    "interference interference=.002in diameter=2in outside=2.1in hub-material=steel shaft-material=steel",
  ],
  "a shaft colder than liquid nitrogen": [
    "shrink-temperature interference=.02in clearance=0in diameter=2in material=steel part=shaft",
    "shrink-temperature interference=.002in clearance=0in diameter=2in material=steel part=shaft",
  ],
  "a gasket that swells": ["gasket-crush free=.05in squeezed=.06in", "gasket-crush free=.06in squeezed=.05in"],
  "one roller too many": [
    "roller-fit track=3.001in pin=1in roller=1in rollers=7",
    "roller-fit track=3.001in pin=1in roller=1in rollers=6",
  ],
  "points that never open": ["points lobes=4 dwell=90", "points lobes=4 dwell=89"],
  "a bore wider than its recess": ["line-bore recess=2in bore=2in", "line-bore recess=2.1in bore=2in"],
  "a rod that weighs less than nothing": [
    "bobweight rotating=-1g reciprocating=45g rods=2",
    "bobweight rotating=621.5g reciprocating=45g rods=2",
  ],
  "all and more of what goes up and down": [
    "bobweight rotating=621.5g reciprocating=45g rods=2 factor=1.1",
    "bobweight rotating=621.5g reciprocating=45g rods=2 factor=1",
  ],
  "a coil no wider than two wires": [
    "spring-rate wire=.1in outside-diameter=.2in active=5 modulus=11.5Mpsi",
    "spring-rate wire=.1in outside-diameter=.3in active=5 modulus=11.5Mpsi",
  ],
  "crush of less than nothing": ["crush gap=-.001in housing=2in", "crush gap=.001in housing=2in"],
  "a dial that stopped before the valve did": [
    "piston-to-valve lift=.2in dial=.1in angle=0",
    "piston-to-valve lift=.1in dial=.2in angle=0",
  ],
  "a flywheel of no size": [
    "flywheel-runout readings=0in,.001in,.002in diameter=0in",
    "flywheel-runout readings=0in,.001in,.002in diameter=10in",
  ],
  "a test of no time": ["jacket-test start=30psi end=30psi time=0min", "jacket-test start=30psi end=30psi time=1min"],
  "a turn backwards": ["torque-angle angle=-90 pitch=1.5mm", "torque-angle angle=90 pitch=1.5mm"],
  "a valve that opens half a turn early": [
    "valve-timing intake-opens=180deg exhaust-closes=45deg",
    "valve-timing intake-opens=28deg exhaust-closes=45deg",
  ],
  "a ring's smallest bore above its largest": [
    "ring-gap-extremes gap=.01in gap-bore=3.9in smallest=3.91in largest=3.9in",
    "ring-gap-extremes gap=.01in gap-bore=3.9in smallest=3.9in largest=3.91in",
  ],
  "a wire gauge between two": ["convert value=20.5swg to=in", "convert value=20swg to=in"],
};

describe("domains", () => {
  it.each(Object.entries(EDGES))("%s", (_what, [refused, answered]) => {
    expect(codeOf(refused)).toBe("out_of_domain");
    expect(refusalOf(refused)).toMatch(/^Expected .+, got .+/);
    expect(codeOf(answered)).toBe("answered");
  });

  it("no number may be given without a thought of where it must lie, but for those that may be anything", () => {
    const free = COMPUTATIONS.flatMap(({ id, inputs }) =>
      Object.entries(inputs).flatMap(([name, input]) =>
        input.kind === "text" || input.domain !== undefined ? [] : [`${id} ${name}`],
      ),
    );
    // Signed by nature (protrusions, dials, deviations, changes), or read in any unit there is.
    expect(free).toEqual([
      "ring-gap-change bore-change",
      "ring-stagger first",
      "ring-stagger-check positions",
      "spread readings",
      "cold-clearance hot",
      "rod-bend deviation",
      "rod-dials left",
      "rod-dials right",
      "shim-clearance clearance",
      "shim-clearance remove-each-side",
      "shim-removal clearance",
      "clock-runout readings",
      "clock-runout sag",
      "flywheel-runout readings",
      "compression-ratio protrusion",
      "piston-to-head protrusion",
      "gasket-for-clearance protrusion",
      "protrusion front",
      "protrusion rear",
      "piston-to-valve angle",
      "crank-phase angles",
      "crank-phase nominal",
      "conformance value",
      "conformance low",
      "conformance high",
      "capability low",
      "capability high",
      "capability-index low",
      "capability-index high",
      "repeatability readings",
      "combined-uncertainty sensitivities",
    ]);
  });
});

describe("silently wrong before", () => {
  it("a lift that the lash swallows is none, not less than none", () => {
    expect(figureOf("valve-lift lobe=0.010in lash=0.012in")).toBe(0);
    expect(figureOf("valve-lift lobe=0.280in lash=0.012in")).toBe(0.268);
  });

  // ISO 286-1, annex A of the 1988 edition: IT01 = 0.3 + 0.008 D, IT0 = 0.5 + 0.012 D, IT1 = 0.8 + 0.020 D, D the geometric mean of the step.
  it.each([
    ["IT01", 0.3, 0.008],
    ["IT0", 0.5, 0.012],
    ["IT1", 0.8, 0.02],
  ])("%s is a grade of its own and follows the standard's formula within its coarse rounding", (grade, base, slope) => {
    for (const [from, upTo] of [
      [18, 30],
      [30, 50],
      [50, 80],
      [80, 120],
      [120, 180],
    ] as const) {
      const wanted = base + slope * Math.sqrt(from * upTo);
      expect(Math.abs(figureOf(`tolerance-grade size=${upTo}mm grade=${grade}`) - wanted)).toBeLessThanOrEqual(0.3 * wanted);
    }
    expect(figureOf("tolerance-grade size=60mm grade=IT01")).toBeLessThan(figureOf("tolerance-grade size=60mm grade=IT0"));
    expect(figureOf("tolerance-grade size=60mm grade=IT0")).toBeLessThan(figureOf("tolerance-grade size=60mm grade=IT1"));
  });
});

describe("a castle nut that reads below its low torque", () => {
  const nut = (short: number, torque: number) =>
    `castle-nut short=${short}deg threads-per-inch=24 torque=${torque}ft_lbf low=35ft_lbf high=42ft_lbf diameter=0.375in k=0.18 grip=2.5in`;
  // By hand (Shigley, ch. 8): kb = pi/4 .375^2 x 30e6 / 2.5 = 1.325e6 lbf/in, ke = 3/4 of it; a degree at 24 threads is 115 lbf, .6471 ft-lbf at K = .18.
  it.each([
    [5, 20, "tighten_first", false],
    [20, 20, "tighten_first", false],
    [10, 35, "forward", true],
    [22, 35, "change_washer", false],
    [5, 33, "forward", true],
  ])(
    "%d degrees short at %d ft-lbf: %s (FAA AC 43.13-1B, 7-40: start at the low torque, never pass the high)",
    (short, torque, advised, may) => {
      expect(partOf(nut(short, torque), "advised")).toBe(advised);
      expect(partOf(nut(short, torque), "may_advance")).toBe(may);
      expect(partOf(nut(short, torque), "torque_at_slot_ft_lbf")).toBeCloseTo(torque + 0.6471 * short, 1);
    },
  );
});
