// Displacement, ratio, deck, temperature, honing and valves: published values, or the geometry they follow from. "memory" marks a figure recalled, not read again.
import type { Cases } from "./types.ts";

export const ENGINE: Cases = {
  displacement: [
    [
      "a published knowledge test for engines: 3.5 x 3.0, six cylinders",
      "displacement bore=3.5in stroke=3in cylinders=6",
      173.2,
      0.05,
    ],
    [
      "FAA-H-8083-32, ch. 1: 5.5 x 5.5, fourteen cylinders (memory)",
      "displacement bore=5.5in stroke=5.5in cylinders=14",
      1829.4,
      0.1,
    ],
    [
      "a published knowledge test, inputs read: 3.78 bore, 4.5 stroke, four cylinders",
      "displacement bore=3.78in stroke=4.5in cylinders=4",
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
      "deck-height block=9.025in rod=6.25in stroke=3.5in compression-height=1.0in",
      -0.025,
      0,
    ],
  ],
  "gasket-for-clearance": [
    [
      "by TM 10-4320-310-14, p. 5-22: required .0217 less a measured depth: of nothing, all of it",
      "gasket-for-clearance clearance=.0217in recess=0 protrusion=0",
      0.0217,
      0,
    ],
    [
      "first principles: crown .031 proud, .010 of recess, .045 wanted over it",
      "gasket-for-clearance clearance=.045in recess=.010in protrusion=.031in",
      0.066,
      0,
    ],
  ],
  "piston-to-head": [
    [
      "first principles: .058 of gasket and .010 of recess above the deck, .031 of piston",
      "piston-to-head gasket=.058in recess=.010in protrusion=.031in",
      0.037,
      0,
    ],
  ],
  protrusion: [["geometry: mean of two", "protrusion front=.012in rear=.014in", 0.013, 0]],
  "temperature-correction": [
    [
      "by J. Res. NIST 99, 31: steel 11.5e-6: 100 mm at 21 degC is 1.15 um long",
      "temperature-correction length=100.00115mm temperature=21degC material=steel",
      100,
      1e-7,
    ],
    [
      "by handbook 6.0e-6 per degF for grey iron: 10 in at 88 degF (20 above 68) is .0012 long",
      "temperature-correction length=10.0012in temperature=88degF material=grey_iron",
      10,
      2e-6,
    ],
  ],
  "cold-clearance": [
    [
      "first principles: the cold piston that is .001 smaller than a 4 in bore when both are hot, each grown by its own (1 + a dT)",
      "cold-clearance hot=.001in bore=4in piston-material=cast_aluminium piston-temperature=120degC block-material=grey_iron block-temperature=90degC",
      4 - (4 * (1 + 10.8e-6 * 70) - 0.001) / (1 + 21.5e-6 * 100),
      3e-5,
    ],
    [
      "by J. Res. NIST 99, 31: pure aluminium (23.1) in steel (11.5), 80 degrees up, 3 in: 11.6e-6 x 80 x 3 more",
      "cold-clearance hot=0in bore=3in piston-material=aluminium piston-temperature=100degC block-material=steel block-temperature=100degC",
      0.002784,
      1e-9,
    ],
  ],
  "cross-hatch": [
    [
      "kinematics: equal speeds cross at a right angle",
      `cross-hatch bore=4in rpm=100 stroke-speed=${Math.PI * 400}in/min`,
      90,
      1e-9,
    ],
  ],
  "stroke-speed": [["kinematics, the same turned round", "stroke-speed bore=4in rpm=100 angle=90", Math.PI * 400, 1e-6]],
  "spring-force": [
    [
      "Shigley, 9th ed., Example 10-1: 4.13 lbf/in, free at 2.06 in: 6.46 lbf at the solid .4995 in (memory; it rounds the travel to 1.56)",
      "spring-force length=.4995in force-1=0lbf length-1=2.06in force-2=4.13lbf length-2=1.06in",
      6.46,
      0.02,
    ],
    [
      "first principles: 40 lbf at 2 in and 80 at 1.5 are 80 lbf/in, so 56 at 1.8",
      "spring-force length=1.8in force-1=40lbf length-1=2in force-2=80lbf length-2=1.5in",
      56,
      1e-9,
    ],
  ],
  "spring-rate": [
    [
      "Shigley, 9th ed., Example 10-1: .037 music wire, 7/16 outside, 10.5 turns: 4.13 lbf/in (memory; it rounds the mean coil of .4005 to .400)",
      "spring-rate wire=0.037in outside-diameter=0.4375in active=10.5 modulus=11.85Mpsi",
      4.13,
      0.016,
    ],
  ],
  "coil-bind": [
    [
      "Shigley, 9th ed., Example 10-1: squared ends, 12.5 turns: (12.5 + 1) .037 = .4995 (memory)",
      "coil-bind wire=0.037in coils=12.5 ends=squared",
      0.4995,
      1e-12,
    ],
  ],
  "seat-width": [
    ["geometry: 45 degrees, 1/8 in on the diameter", "seat-width outer=1.625in inner=1.5in angle=45", 0.0625 * Math.SQRT2, 1e-9],
  ],
  "interference-angle": [["TM 5-6115-400-35, p. 95: valve 45, seat 46", "interference-angle seat=46 face=45", 1, 0]],
  "curtain-area": [
    [
      "by Heywood, ch. 6: at a quarter diameter's lift it is the port's area",
      "curtain-area diameter=1.5in lift=.375in",
      (Math.PI / 4) * 2.25,
      1e-9,
    ],
  ],
  "valve-lift": [["geometry", "valve-lift lobe=.280in lash=.012in", 0.268, 1e-12]],
  "cranking-pressure": [
    [
      "cold-air Otto tables: ratio 8, exponent 1.4: p2/p1 = 18.38 (memory)",
      "cranking-pressure compression-ratio=8 exponent=1.4 atmosphere=1psi",
      17.38,
      0.005,
    ],
  ],
};
