// Balance, line boring, rollers, deck, timing, interference, tests under pressure, run-in: published values, or what they follow from.
import type { Cases } from "./types.ts";

const DEGREE = Math.PI / 180;

export const ASSEMBLY: Cases = {
  bobweight: [
    [
      "a published balancing worksheet: big end 621.5 g and shell 45 g, two rods: 1333 g turning",
      "bobweight rotating=666.5g reciprocating=0g rods=2",
      1333,
      0,
    ],
    ["first principles: two of (621.5 + half of 45) g", "bobweight rotating=621.5g reciprocating=45g rods=2", 1288, 0],
    ["first principles: one rod, 0.6 of 500 g", "bobweight rotating=400g reciprocating=500g rods=1 factor=0.6", 700, 1e-9],
  ],
  "line-bore": [["geometry: .124 of babbitt on each side of 2.002 in 2.250", "line-bore recess=2.250in bore=2.002in", 0.124, 0]],
  "roller-fit": [
    ["geometry: two rollers and the pin across the track", "roller-fit track=1.8760in pin=1.2500in roller=.3125in", 0.001, 0],
  ],
  "deck-squareness": [
    ["geometry: highest corner less lowest", "deck-squareness readings=9.025in,9.023in,9.021in,9.019in", 0.006, 0],
  ],
  "gasket-crush": [["geometry", "gasket-crush free=.072in squeezed=.058in", 0.014, 0]],
  "lobe-wear": [
    ["geometry: the lowest against the standard", "lobe-wear lifts=.280in,.279in,.271in,.280in standard=.281in", 0.01, 0],
  ],
  "valve-timing": [
    ["geometry: 28 before and 45 after", "valve-timing intake-opens=28deg exhaust-closes=45deg", 73, 0],
    [
      "an article on valve timing diagrams: 20-60 and 60-20 (open together for 20 and 20)",
      "valve-timing intake-opens=20 intake-closes=60 exhaust-opens=60 exhaust-closes=20",
      40,
      0,
    ],
    ["geometry: an intake that opens 10 after leaves 5 closed", "valve-timing intake-opens=-10deg exhaust-closes=5deg", -5, 0],
  ],
  "piston-travel": [
    [
      "law of cosines: 9^2 = x^2 + 2.25^2 - 2 x 2.25 x cos 20, solved for x and taken from 11.25",
      "piston-travel throw=2.25in rod=9in angle=20deg",
      11.25 - (2.25 * Math.cos(20 * DEGREE) + Math.sqrt((2.25 * Math.cos(20 * DEGREE)) ** 2 - 2.25 ** 2 + 81)),
      1e-9,
    ],
    [
      "Pythagoras: at a right angle the pin is sqrt(81 - 5.0625) up",
      "piston-travel throw=2.25in rod=9in angle=90deg",
      11.25 - 8.71421,
      1e-5,
    ],
    ["geometry: the whole stroke", "piston-travel throw=2.25in rod=9in angle=180deg", 4.5, 1e-12],
  ],
  "piston-to-valve": [
    [
      "geometry: the smallest of .100, .085 and .092",
      "piston-to-valve lift=.050in,.085in,.120in dial=.150in,.170in,.212in angle=-10deg,-5deg,0deg",
      0.085,
      0,
    ],
  ],
  "crank-phase": [
    ["geometry: .3 ahead and .2 behind are .5 apart", "crank-phase angles=0,180.3,179.8,0 nominal=0,180,180,0", 0.5, 1e-9],
    ["geometry: across zero", "crank-phase angles=0,359.9 nominal=0,0", 0.1, 1e-9],
  ],
  points: [
    ["an article on dwell: four lobes are 90 apart; 50 percent is 45 degrees", "points lobes=4 percent=50%", 45, 0],
    ["the same, as an angle", "points lobes=4 dwell=52deg", 52, 0],
  ],
  interference: [
    [
      "by Shigley, 9th ed., eq. 3-57 (one metal, solid shaft): E d / 2 D (1 - (D / Do)^2) = 30e6 x .002 / 4 x .75",
      "interference interference=.002in diameter=2in outside=4in hub-material=steel shaft-material=steel",
      11250,
      1e-6,
    ],
  ],
  "shrink-temperature": [
    [
      "a published worked example: 1 in aluminium hub, .001 and .002, from 70 degF (12.8e-6 per degF): about 304 degF",
      "shrink-temperature interference=.001in clearance=.002in diameter=1.000in material=aluminium room=70degF",
      304,
      1,
    ],
    [
      "by J. Res. NIST 99, 31: 11.5e-6: .0046 in on 4 in of steel is 100 degrees",
      "shrink-temperature interference=.0026in clearance=.002in diameter=4in material=steel",
      120,
      1e-6,
    ],
  ],
  "leak-down": [
    ["FAA AC 43.13-1B, 8-14: 60 of 80 psi is 25 percent lost (memory)", "leak-down supply=80psi cylinder=60psi", 25, 1e-12],
  ],
  "jacket-test": [
    ["arithmetic", "jacket-test start=35psi end=33.5psi time=30min", 1.5, 0],
    [
      "Gay-Lussac: 44.696 psi of air at 293.15 K is 45.458 at 298.15 K: 30 read again is .762 lost",
      "jacket-test start=30psi end=30psi time=30min start-temperature=20degC end-temperature=25degC",
      (44.6959 * 298.15) / 293.15 - 44.6959,
      1e-4,
    ],
  ],
  "run-in": [["arithmetic: 20, 20 and 60 minutes", "run-in times=20,20,60min speeds=600,800,1000", 100, 0]],
};
