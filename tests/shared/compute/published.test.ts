// Every computation against values that others published. The publication stands beside each figure; "memory" marks a figure
// recalled and not read again; "geometry" marks one that follows from the definition and that no publication is needed for.
import { describe, expect, it } from "vitest";
import { COMPUTATIONS } from "../../../shared/compute/registry.ts";
import { compute } from "../../../shared/compute/request.ts";

type Case = readonly [source: string, ask: string, value: number, tolerance: number];

function singleValue(ask: string): number {
  const [id = "", ...pairs] = ask.split(" ");
  const result = compute(id, pairs);
  if (!result.ok) throw new Error(result.error.say);
  const { value, parts } = result.computed;
  if (typeof value === "number") return value;
  throw new Error(`${ask} has no single value: ${JSON.stringify({ value, parts })}`);
}

function partOf(ask: string, part: string): unknown {
  const [id = "", ...pairs] = ask.split(" ");
  const result = compute(id, pairs);
  if (!result.ok) throw new Error(result.error.say);
  const { value, parts } = result.computed;
  return (typeof value === "number" ? parts : value)?.[part];
}

const CASES: Readonly<Record<string, readonly Case[]>> = {
  extension: [
    [
      "TM 1-1500-204-23-9, fig. 8-16: 300 in-lb, 10 in wrench, 4 in attachment",
      "extension torque=300in_lbf length=10 extension=4",
      214,
      0.5,
    ],
    [
      "NAVEDTRA 14315, fig. 3-44: inputs read, answer worked out",
      "extension torque=100in_lbf length=12 extension=6",
      66.67,
      0.01,
    ],
    [
      "a torque wrench's printed instructions: 50 ft-lb, 16 in, 2 in",
      "extension torque=50ft_lbf length=16 extension=2",
      44.44,
      0.01,
    ],
    [
      "TM 9-254, fig. 4-6: an extension at 90 degrees changes nothing",
      "extension torque=50ft_lbf length=16 extension=2 angle=90",
      50,
      1e-9,
    ],
  ],
  "bolt-stress": [["Shigley, 9th ed., Example 8-3(a), kpsi", "bolt-stress force=25000lbf area=0.373in2", 67020, 10]],
  "torque-for-preload": [
    [
      "Shigley, 9th ed., Example 8-3(b): 3750 lbf in (memory)",
      "torque-for-preload force=25000lbf diameter=0.75in k=0.2",
      3750 / 12,
      1e-6,
    ],
  ],
  preload: [
    [
      "Shigley, 9th ed., Example 8-3(b), solved for the force (memory)",
      "preload torque=3750in_lbf diameter=0.75in k=0.2",
      25000,
      1e-6,
    ],
  ],
  "stress-area": [
    ["Shigley, 9th ed., Table 8-2: 3/8-24", "stress-area diameter=0.375 threads-per-inch=24", 0.0878, 0.0001],
    ["Shigley, 9th ed., Table 8-2: 7/16-20", "stress-area diameter=0.4375 threads-per-inch=20", 0.1187, 0.0001],
    ["Shigley, 9th ed., Table 8-2: 1/2-20", "stress-area diameter=0.5 threads-per-inch=20", 0.1599, 0.0001],
    ["Shigley, 9th ed., Table 8-2: 3/4-16", "stress-area diameter=0.75 threads-per-inch=16", 0.373, 0.0005],
  ],
  "bolt-stretch": [
    [
      "TM 55-1905-223-24-1: stretch is tight less zero reading; 0.0135 to 0.0185 in accepted",
      "bolt-stretch tight=8.0165 free=8.0000",
      0.0165,
      0,
    ],
  ],
  repeatability: [
    [
      "Shigley, 9th ed., Table 8-14: mean of ten preloads, kN",
      "repeatability readings=30.3,32.5,32.5,32.9,32.9,33.8,34.3,34.7,37.4,40.5",
      34.18,
      0.005,
    ],
  ],
  "ring-gap-limit": [
    ["a trade magazine of 2013 quoting SAE: 4 in bore, .0035 per inch", "ring-gap-limit bore=4in per-inch=.0035", 0.014, 0],
  ],
  "ring-gap-change": [
    ["TM 5-3825-225-14&P, para 1-26: .003 for .001", "ring-gap-change bore-change=.001", 0.003, 0.0002],
    ["a trade magazine of 2013: .012 wear opens the gap .036", "ring-gap-change bore-change=.012", 0.036, 0.002],
  ],
  "ring-side-clearance": [["geometry: groove .1270, ring .1250", "ring-side-clearance groove=.1270 ring=.1250", 0.002, 0]],
  "ring-stagger": [["TM 5-3895-370-14&P: gaps 120 degrees apart", "ring-stagger rings=3", 120, 0]],
  "ring-stagger-check": [["geometry: across zero", "ring-stagger-check positions=350,110,230", 120, 0]],
  displacement: [
    [
      "a published knowledge test for engines: 3.5 x 3.0, six cylinders",
      "displacement bore=3.5 stroke=3 cylinders=6",
      173.2,
      0.05,
    ],
    [
      "FAA-H-8083-32, ch. 1: 5.5 x 5.5, fourteen cylinders (memory)",
      "displacement bore=5.5 stroke=5.5 cylinders=14",
      1829.4,
      0.1,
    ],
    [
      "a published knowledge test, inputs read: 3.78 bore, 4.5 stroke, four cylinders",
      "displacement bore=3.78 stroke=4.5 cylinders=4",
      200,
      2.1,
    ],
  ],
  "ratio-from-volumes": [
    [
      "a published knowledge test for engines: 823.7 cc swept, 100 cc chamber",
      "ratio-from-volumes swept=823.7cc clearance=100cc",
      9.237,
      1e-9,
    ],
  ],
  "compression-ratio": [
    [
      "the same, with the swept volume from a bore and stroke that give it",
      "compression-ratio bore=101.6mm stroke=101.6mm chamber=100cc",
      9.237,
      0.001,
    ],
  ],
  "chamber-spread": [["geometry", "chamber-spread chambers=221cc,225.5cc,224cc,224.5cc", 4.5, 0]],
  "deck-height": [
    [
      "a published knowledge test: block 9.025, rod 6.25, stroke 3.5, height 1.0: .025 below",
      "deck-height block=9.025 rod=6.25 stroke=3.5 compression-height=1.0",
      -0.025,
      0,
    ],
  ],
  "gasket-for-clearance": [
    [
      "TM 10-4320-310-14, p. 5-22: required .0217 less a measured depth (of .010)",
      "gasket-for-clearance clearance=.0217 recess=0 protrusion=-.010",
      0.0117,
      0,
    ],
    [
      "TM 10-4320-310-14, p. 5-22: required .0256 less a measured depth (of .010)",
      "gasket-for-clearance clearance=.0256 recess=0 protrusion=-.010",
      0.0156,
      0,
    ],
  ],
  "piston-to-head": [
    ["the same rule solved for the clearance", "piston-to-head gasket=.0117 recess=0 protrusion=-.010", 0.0217, 0],
  ],
  protrusion: [["geometry: mean of two", "protrusion front=.012 rear=.014", 0.013, 0]],
  "rod-dials": [["TM 9-2815-226-34-1: length is half the sum of the dials", "rod-dials left=-.003 right=.001", -0.001, 0]],
  "rod-bend": [
    [
      "TM 9-2815-220-24, WP 0143: .0005 per inch allowed, so .003 over 6 in is on the limit",
      "rod-bend deviation=.003 length=6",
      0.0005,
      1e-15,
    ],
  ],
  "half-shell": [
    [
      "TM 10-3930-653-14&P, p. 78: 0.25 mm undersize: half shell 1.748 against 1.623",
      "half-shell undersize=0.25mm",
      0.125 / 25.4,
      1e-9,
    ],
  ],
  "oversize-bore": [
    ["TM 55-1905-219-14-11: .001 oversize bore starts at 4.627", "oversize-bore standard=4.626 oversize=.001", 4.627, 0],
    ["TM 55-1905-219-14-11: .010 oversize bore starts at 4.636", "oversize-bore standard=4.626 oversize=.010", 4.636, 0],
    ["TM 55-1905-219-14-11: .030 oversize bore starts at 4.656", "oversize-bore standard=4.626 oversize=.030", 4.656, 0],
  ],
  "next-oversize": [["smallest listed step that cleans up, by hand", "next-oversize largest=3.8885 standard=3.875", 0.02, 0]],
  "next-undersize": [
    ["TM 5-3805-262-34: STD 1.1235 high, first step .010", "next-undersize smallest=1.1228 standard=1.1235", 0.01, 0],
  ],
  "bore-wear": [["geometry", "bore-wear largest=3.8885 standard=3.8750", 0.0135, 0]],
  "feeler-pull": [["TM 5-4210-233-14&P-2: .003 feeler drawing at 6 lb", "feeler-pull feeler=.003", 0.004, 0]],
  "guide-clearance": [
    [
      "TM 9-4310-397-14, p. 6-28 allows .002 to .004: .3745 guide on a .3720 stem is inside",
      "guide-clearance guide=.3745 stem=.3720",
      0.0025,
      0,
    ],
  ],
  "pin-fit": [["geometry", "pin-fit hole=.8753 pin=.8750", 0.0003, 0]],
  "piston-clearance": [["geometry: exact, no binary tail", "piston-clearance bore=3.9050 skirt=3.9012", 0.0038, 0]],
  spread: [["geometry", "spread readings=72psi,69psi,70psi,71psi", 3, 0]],
  "crank-bend": [["TM 10-3930-653-14&P: bend is half the run-out", "crank-bend tir=.0016", 0.0008, 0]],
  "bearing-clearance": [["geometry", "bearing-clearance bore=2.0020 journal=1.9998", 0.0022, 0]],
  "clearance-guide": [["shop rule, no source: .001 per inch", "clearance-guide journal=2 per-inch=.001", 0.002, 0]],
  "plastic-gauge": [["geometry: mean of the ends", "plastic-gauge front=.0020 rear=.0024", 0.0022, 0]],
  "shim-clearance": [["geometry: the cap comes down once", "shim-clearance clearance=.0045 remove-each-side=.002", 0.0025, 0]],
  "shim-removal": [["geometry", "shim-removal clearance=.0045 low=.0015 high=.0025 lamination=.002", 0.002, 0]],
  "end-float-shim": [
    [
      "TM 5-3820-205-35-1 has .002 and .008 shims: .014 to .006 takes one of .008",
      "end-float-shim float=.014 target=.006",
      0.008,
      0,
    ],
  ],
  "temperature-correction": [
    [
      "J. Res. NIST 99, 31: steel 11.5e-6: 100 mm at 21 degC is 1.15 um long",
      "temperature-correction length=100.00115mm temperature=21 material=steel",
      100,
      1e-7,
    ],
    [
      "handbook 6.0e-6 per degF for grey iron: 10 in at 88 degF (20 above 68) is .0012 long",
      "temperature-correction length=10.0012in temperature=88degF material=grey_iron",
      10,
      2e-6,
    ],
  ],
  "cold-clearance": [
    [
      "geometry: equal growth needs no allowance",
      "cold-clearance hot=.001 bore=4 piston-material=steel piston-temperature=90 block-material=steel block-temperature=90",
      0.001,
      1e-12,
    ],
  ],
  "castle-nut": [
    [
      "thread geometry: a whole slot of six at 24 threads is a sixth of the pitch",
      "castle-nut short=60 threads-per-inch=24",
      1 / 144,
      1e-9,
    ],
    ["thread geometry: a turn at 20 threads is .050", "castle-nut short=360 threads-per-inch=20", 0.05, 1e-12],
  ],
  "slot-pitch": [
    ["common practice, no source: six slots, one hole: every 60 degrees", "slot-pitch slots=6 holes=1", 60, 0],
    ["common practice, no source: six slots, two crossed holes: every 30 degrees", "slot-pitch slots=6 holes=2", 30, 0],
  ],
  "cross-hatch": [
    ["kinematics: equal speeds cross at a right angle", `cross-hatch bore=4 rpm=100 stroke-speed=${Math.PI * 400}`, 90, 1e-9],
  ],
  "stroke-speed": [["kinematics, the same turned round", "stroke-speed bore=4 rpm=100 angle=90", Math.PI * 400, 1e-6]],
  "spring-force": [
    [
      "Hooke's law between two points of a published pair: 53.2 lb at 2 1/32 (TM 5-3810-206-35, p. 3-73) and 0 at 2.5 (invented)",
      "spring-force length=2.03125 force-1=0 length-1=2.5 force-2=53.2 length-2=2.03125",
      53.2,
      1e-9,
    ],
  ],
  "seat-width": [
    ["geometry: 45 degrees, 1/8 in on the diameter", "seat-width outer=1.625 inner=1.5 angle=45", 0.0625 * Math.SQRT2, 1e-9],
  ],
  "interference-angle": [["TM 5-6115-400-35, p. 95: valve 45, seat 46", "interference-angle seat=46 face=45", 1, 0]],
  "curtain-area": [
    [
      "Heywood, ch. 6: at a quarter diameter's lift it is the port's area",
      "curtain-area diameter=1.5 lift=.375",
      (Math.PI / 4) * 2.25,
      1e-9,
    ],
  ],
  "valve-lift": [["geometry", "valve-lift lobe=.280 lash=.012", 0.268, 1e-12]],
  "cranking-pressure": [
    [
      "cold-air Otto tables: ratio 8, exponent 1.4: p2/p1 = 18.38 (memory)",
      "cranking-pressure compression-ratio=8 exponent=1.4 atmosphere=1psi",
      17.38,
      0.005,
    ],
  ],
  "tolerance-grade": [
    ["ISO 286-1, 80 to 120 mm: IT5 15", "tolerance-grade size=98.4mm grade=IT5", 15, 0],
    ["ISO 286-1, 80 to 120 mm: IT7 35", "tolerance-grade size=98.4mm grade=IT7", 35, 0],
    ["ISO 286-1, 80 to 120 mm: IT11 220", "tolerance-grade size=120mm grade=IT11", 220, 0],
    ["ISO 286-1, 50 to 80 mm: IT6 19", "tolerance-grade size=2in grade=IT6", 19, 0],
    ["ISO 286-1, 18 to 30 mm: IT7 21", "tolerance-grade size=30 grade=7", 21, 0],
    ["ISO 286-1, 30 to 50 mm: IT8 39", "tolerance-grade size=30.001 grade=it8", 39, 0],
    ["ISO 286-1: IT14 is 0.36 mm at 10 mm", "tolerance-grade size=10 grade=IT14", 360, 0],
    ["ISO 286-1: IT14 is 0.87 mm at 100 mm", "tolerance-grade size=100 grade=IT14", 870, 0],
  ],
  capability: [
    [
      "rule of ten, no source: .001 feeler on a .0059 tolerance",
      "capability resolution=.001in low=.0117in high=.0176in",
      0.169491525424,
      1e-9,
    ],
  ],
  convert: [
    ["NIST SP 811, B.8: foot pound-force to newton metre 1.355 818", "convert value=1ft_lbf to=N_m", 1.355818, 5e-7],
    ["NIST SP 811, B.8: pound-force inch to newton metre 1.129 848 E-01", "convert value=1in_lbf to=N_m", 0.1129848, 5e-8],
    ["NIST SP 811, B.8: pound-force to newton 4.448 222", "convert value=1lbf to=N", 4.448222, 5e-7],
    ["NIST SP 811, B.8: psi to kilopascal 6.894 757", "convert value=1psi to=kPa", 6.894757, 5e-7],
    ["NIST SP 811, B.8: inch to centimetre 2.54, exact", "convert value=1in to=mm", 25.4, 0],
    ["NIST SP 811, B.8: microinch to micrometre 2.54 E-02, exact", "convert value=1uin to=um", 0.0254, 0],
    ["NIST SP 811, B.8: cubic inch to cubic metre 1.638 706 E-05", "convert value=1in3 to=cc", 16.38706, 5e-6],
    ["NIST SP 811, B.8: ounce (avoirdupois) to gram 28.349 52", "convert value=1oz to=g", 28.34952, 5e-6],
    ["NIST SP 811, B.8: kilogram-force metre to newton metre 9.806 65, exact", "convert value=1kgf_m to=N_m", 9.80665, 0],
    ["a Navy conversion appendix: 1 in3 is 16 387.1 mm3", "convert value=1in3 to=mm3", 16387.1, 0.05],
    ["a Navy conversion appendix: 1 lbf in is 0.112985 N m", "convert value=1in_lbf to=N_m", 0.112985, 5e-7],
    ["TM 5-6640-212-14 and like: 70 ft-lb as 9.681 kgf m", "convert value=70ft_lbf to=kgf_m", 9.681, 0.005],
    ["the ice point and body heat: 98.6 degF is 37 degC", "convert value=98.6degF to=degC", 37, 1e-9],
  ],
};

/** Computations whose answer has named parts, checked part by part. */
const PARTS: readonly (readonly [source: string, ask: string, part: string, value: unknown])[] = [
  [
    "NAVEDTRA 14076: difference of the axes at a level",
    "bore-form readings=3.8885,3.8838,3.8826,3.8806,3.8774,3.8767",
    "out_of_round",
    0.0047,
  ],
  ["NAVEDTRA 14076: difference along an axis", "bore-form readings=3.8885,3.8838,3.8826,3.8806,3.8774,3.8767", "taper", 0.0111],
  [
    "TM 9-2815-202-34, p. 4-158: out-of-round at a station",
    "journal-form readings=1.8722,1.8704,1.8720,1.8712",
    "out_of_round",
    0.0018,
  ],
  ["TM 9-2815-202-34, p. 4-158: taper along the journal", "journal-form readings=1.8722,1.8704,1.8720,1.8712", "taper", 0.0008],
  ["TM 9-2815-226-34-1: bend is the difference of the dials", "rod-dials left=-.003 right=.001", "bend", 0.004],
  [
    "Shigley, 9th ed., Table 8-14: deviation 2.88 kN",
    "repeatability readings=30.3,32.5,32.5,32.9,32.9,33.8,34.3,34.7,37.4,40.5",
    "standard_deviation",
    2.88,
  ],
  ["TM 5-3805-262-34: .010 under 1.1235 is 1.1135", "next-undersize smallest=1.1228 standard=1.1235", "size", 1.1135],
  [
    "JCGM 106:2012, a viscosity between 12.5 and 16.3, read 13.6 with u 1.8: 0.66 (memory)",
    "conformance value=13.6 uncertainty=1.8 low=12.5 high=16.3",
    "probability",
    0.66,
  ],
  [
    "TM 10-4320-315-24 prints 2.216 ft-lb (5.629 N.m): not the same torque",
    "unit-pair first=2.216ft_lbf second=5.629N_m",
    "agrees",
    false,
  ],
  [
    "TM 9-2815-254-24 prints 123 ft-lb (166.8 N.m): the same within rounding",
    "unit-pair first=123ft_lbf second=166.8N_m",
    "agrees",
    true,
  ],
];

describe.each(Object.entries(CASES))("%s", (_id, cases) => {
  it.each(cases)("%s", (_source, ask, value, tolerance) => {
    expect(Math.abs(singleValue(ask) - value)).toBeLessThanOrEqual(tolerance);
  });
});

describe("answers in named parts", () => {
  it.each(PARTS)("%s", (_source, ask, part, value) => {
    const got = partOf(ask, part);
    // Published to two or four figures: right when it rounds to what was printed.
    if (typeof value === "number") expect(Math.abs(Number(got) - value)).toBeLessThanOrEqual(value >= 0.1 ? 0.005 : 1e-12);
    else expect(got).toBe(value);
  });
});

describe("every computation", () => {
  it.each(COMPUTATIONS.map((row) => [row.id, row] as const))(
    "%s has a published or stated check, a formula and a source",
    (id, row) => {
      const checked = new Set([...Object.values(CASES).flat(), ...PARTS].map(([, ask]) => ask.split(" ")[0]));
      expect(checked).toContain(id);
      expect(row.formula).not.toBe("");
      expect(row.source).not.toBe("");
    },
  );
});

describe("wrong publications are not followed", () => {
  it("a knowledge test explains 200 cubic inches with 8.5 in of block depth as the stroke: that gives twice as much", () => {
    expect(singleValue("displacement bore=3.78 stroke=8.5 cylinders=4")).toBeGreaterThan(380);
  });
  it("TM 5-3825-229-14&P, p. 6-24, gives .0031 for .0012 of bore: same sign and order, not the figure", () => {
    const gap = singleValue("ring-gap-change bore-change=-0.0012in");
    expect(gap).toBeLessThan(-0.0031);
    expect(gap).toBeGreaterThan(-0.0042);
  });
  it.each([
    ["123", "166.8"],
    ["61.5", "83.4"],
    ["40", "54"],
    ["45", "61"],
    ["118", "160"],
    ["137", "185"],
    ["50", "68"],
    ["105", "142"],
    ["155", "210"],
  ])("service manuals' pair %s ft-lb, %s N.m stands", (foot, newton) => {
    expect(partOf(`unit-pair first=${foot}ft_lbf second=${newton}N_m`, "agrees")).toBe(true);
  });
});
