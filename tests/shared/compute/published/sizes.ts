// Bores, rings, rods, journals and bearings: published values, or the geometry they follow from. "memory" marks a figure recalled, not read again.
import type { Cases } from "./types.ts";

export const SIZES: Cases = {
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
};
