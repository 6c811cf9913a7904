// Bores, rings, rods, journals and bearings: published values, or the geometry they follow from. "memory" marks a figure recalled, not read again.
import type { Cases } from "./types.ts";

export const SIZES: Cases = {
  "ring-gap-limit": [
    ["a trade magazine of 2013 quoting SAE: 4 in bore, .0035 per inch", "ring-gap-limit bore=4in per-inch=.0035", 0.014, 0],
  ],
  "ring-gap-change": [
    ["TM 5-3825-225-14&P, para 1-26: .003 for .001", "ring-gap-change bore-change=.001in", 0.003, 0.0002],
    ["a trade magazine of 2013: .012 wear opens the gap .036", "ring-gap-change bore-change=.012in", 0.036, 0.002],
  ],
  "ring-gap-extremes": [
    [
      "a trade magazine of 2012: gauge 5.400 smallest, gap .033 + .006, liner 5.401 + .001 (it rounds pi to 3)",
      "ring-gap-extremes gap=.039in gap-bore=5.400in smallest=5.402in largest=5.402in",
      0.045,
      0.001,
    ],
    [
      "first principles: a circumference less .0118 pi of it from a gap of .013 is .0241 short: the ends butt",
      "ring-gap-extremes gap=.013in gap-bore=3.8885in smallest=3.8767in largest=3.8885in",
      0.013 - 0.0118 * Math.PI,
      1e-9,
    ],
  ],
  crush: [
    ["first principles: a circumference .0031416 too long is .001 too wide", "crush gap=.0031416in housing=2.125in", 0.001, 1e-8],
  ],
  "bearing-spread": [
    [
      "by TM 5-3820-256-24-5, sec. 5, p. 13: shells .025 wider free than fitted, here in a 3.000 housing",
      "bearing-spread free=3.025in housing=3.000in",
      0.025,
      0,
    ],
  ],
  "housing-bore": [
    ["geometry: mean of three", "housing-bore readings=2.1252in,2.1255in,2.1249in torque=35ft_lbf", 2.1252, 1e-12],
  ],
  "clock-runout": [
    [
      "definition of the total indicator reading: .003 down to -.002",
      "clock-runout readings=0in,.003in,-.002in,.003in",
      0.005,
      0,
    ],
  ],
  "flywheel-runout": [
    ["definition of the total indicator reading", "flywheel-runout readings=0in,.004in,.006in,.002in diameter=11in", 0.006, 0],
  ],
  "ring-side-clearance": [["geometry: groove .1270, ring .1250", "ring-side-clearance groove=.1270in ring=.1250in", 0.002, 0]],
  "ring-stagger": [["TM 5-3895-370-14&P: gaps 120 degrees apart", "ring-stagger rings=3", 120, 0]],
  "ring-stagger-check": [["geometry: across zero", "ring-stagger-check positions=350,110,230", 120, 0]],
  "rod-dials": [["by TM 9-2815-226-34-1: length is half the sum of the dials", "rod-dials left=-.003in right=.001in", -0.001, 0]],
  "rod-bend": [
    [
      "by TM 9-2815-220-24, WP 0143: .0005 per inch allowed, so .003 over 6 in is on the limit",
      "rod-bend deviation=.003in length=6in",
      0.0005,
      1e-15,
    ],
  ],
  "half-shell": [
    ["TM 10-3930-653-14&P, p. 78: 0.25 mm undersize: half shell 1.748 against 1.623", "half-shell undersize=0.25mm", 0.125, 0],
  ],
  "oversize-bore": [
    ["TM 55-1905-219-14-11: .001 oversize bore starts at 4.627", "oversize-bore standard=4.626in oversize=.001in", 4.627, 0],
    ["TM 55-1905-219-14-11: .010 oversize bore starts at 4.636", "oversize-bore standard=4.626in oversize=.010in", 4.636, 0],
    ["TM 55-1905-219-14-11: .030 oversize bore starts at 4.656", "oversize-bore standard=4.626in oversize=.030in", 4.656, 0],
  ],
  "next-oversize": [
    [
      "by an instruction book of the 1930s: 2.913 bore, pistons .020 and .040 over only, rebored when worn by .008",
      "next-oversize largest=2.921in standard=2.913in oversizes=.020in,.040in",
      0.02,
      0,
    ],
    [
      "first principles: .010 over is 3.885, under what is worn (3.8885); .020 over is 3.895 and takes .0065 off it, the .004 asked for",
      "next-oversize largest=3.8885in standard=3.875in",
      0.02,
      0,
    ],
    [
      "first principles: a score of .006 is .012 on the diameter: 3.8826 + .012 + .004 is past 3.895 (.020), inside 3.905 (.030)",
      "next-oversize largest=3.8885in standard=3.875in score=.006in score-diameter=3.8826in",
      0.03,
      0,
    ],
  ],
  "next-undersize": [
    ["by TM 5-3805-262-34: STD 1.1235 high, first step .010", "next-undersize smallest=1.1228in standard=1.1235in", 0.01, 0],
  ],
  "bore-wear": [["geometry", "bore-wear largest=3.8885in standard=3.8750in", 0.0135, 0]],
  "feeler-pull": [["by TM 5-4210-233-14&P-2: .003 feeler drawing at 6 lb", "feeler-pull feeler=.003in", 0.004, 0]],
  "guide-clearance": [
    [
      "by TM 9-4310-397-14, p. 6-28 allows .002 to .004: .3745 guide on a .3720 stem is inside",
      "guide-clearance guide=.3745in stem=.3720in",
      0.0025,
      0,
    ],
  ],
  "pin-fit": [["geometry", "pin-fit hole=.8753in pin=.8750in", 0.0003, 0]],
  "piston-clearance": [["geometry: exact, no binary tail", "piston-clearance bore=3.9050in skirt=3.9012in", 0.0038, 0]],
  spread: [["geometry", "spread readings=72psi,69psi,70psi,71psi", 3, 0]],
  "crank-bend": [["by TM 10-3930-653-14&P: bend is half the run-out", "crank-bend tir=.0016in", 0.0008, 0]],
  "bearing-clearance": [["geometry", "bearing-clearance bore=2.0020in journal=1.9998in", 0.0022, 0]],
  "clearance-guide": [["shop rule, no source: .001 per inch", "clearance-guide journal=2in per-inch=.001", 0.002, 0]],
  "plastic-gauge": [["geometry: mean of the ends", "plastic-gauge front=.0020in rear=.0024in", 0.0022, 0]],
  "shim-clearance": [
    ["geometry: the cap comes down once", "shim-clearance clearance=.0045in remove-each-side=.002in", 0.0025, 0],
  ],
  "shim-removal": [["geometry", "shim-removal clearance=.0045in low=.0015in high=.0025in lamination=.002in", 0.002, 0]],
  "end-float-shim": [
    [
      "by TM 5-3820-205-35-1 has .002 and .008 shims: .014 to .006 takes one of .008",
      "end-float-shim float=.014in target=.006in",
      0.008,
      0,
    ],
  ],
};
