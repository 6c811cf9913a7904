// Answers in named parts: published values, or the definition they follow.
import type { PartCase } from "./types.ts";

export const PARTS: readonly PartCase[] = [
  [
    "first principles: a bore that opens .001 opens the gap by pi thou",
    "ring-gap-extremes gap=.010in gap-bore=3.875in smallest=3.874in largest=3.876in",
    "at_largest",
    0.0131415926536,
  ],
  [
    "geometry: the same, closing",
    "ring-gap-extremes gap=.013in gap-bore=3.8885in smallest=3.8767in largest=3.8885in",
    "butts",
    true,
  ],
  [
    "Hooke's law: .375 mm over 75 mm of 30 Mpsi steel is .005 of it",
    "torque-angle angle=90deg pitch=1.5mm grip=75mm",
    "most_stress",
    1034.2135939753,
  ],
  ["arithmetic: 70 of 85 ksi", "bolt-stress force=70lbf area=.001in2 proof=85ksi", "percent_of_proof", 82.3529411765],
  ["Hooke's law: 30 Mpsi x .001 / 3", "crush gap=.00314159265359in housing=3in", "stress_lbf_per_in2", 10000],
  [
    "geometry: 2.1252 less two walls of .0620 less 1.9995",
    "housing-bore readings=2.1252in,2.1252in torque=35ft_lbf wall=.0620in journal=1.9995in",
    "clearance",
    0.0017,
  ],
  ["geometry: half the difference of top and bottom", "clock-runout readings=0in,.003in,-.002in,.003in", "centre_offset", 0.001],
  ["geometry: towards the higher side", "clock-runout readings=.001in,0in,-.001in,0in", "towards_deg", 0],
  [
    "common practice of shaft alignment: a bar that sags .004 at the bottom has .002 of it at the sides",
    "clock-runout readings=0in,-.002in,-.004in,-.002in sag=-.004in",
    "runout_less_sag",
    0,
  ],
  ["geometry: .006 over 12 in", "flywheel-runout readings=0in,.003in,.006in,.003in diameter=12in", "in_per_in", 0.0005],
  [
    "geometry: 1.600 less .400 is 1.200, eight ground coils of .120 stand .960 high",
    "coil-bind wire=.120in coils=8 installed=1.600in lift=.400in",
    "clearance",
    0.24,
  ],
  [
    "NAVEDTRA 14076: difference of the axes at a level",
    "bore-form readings=3.8885in,3.8838in,3.8826in,3.8806in,3.8774in,3.8767in",
    "out_of_round",
    0.0047,
  ],
  [
    "NAVEDTRA 14076: difference along an axis",
    "bore-form readings=3.8885in,3.8838in,3.8826in,3.8806in,3.8774in,3.8767in",
    "taper",
    0.0111,
  ],
  [
    "TM 9-2815-202-34, p. 4-158: out-of-round at a station",
    "journal-form readings=1.8722in,1.8704in,1.8720in,1.8712in",
    "out_of_round",
    0.0018,
  ],
  [
    "TM 9-2815-202-34, p. 4-158: taper along the journal",
    "journal-form readings=1.8722in,1.8704in,1.8720in,1.8712in",
    "taper",
    0.0008,
  ],
  ["TM 9-2815-226-34-1: bend is the difference of the dials", "rod-dials left=-.003in right=.001in", "bend", 0.004],
  [
    "Shigley, 9th ed., Table 8-14: deviation 2.88 kN",
    "repeatability readings=30.3,32.5,32.5,32.9,32.9,33.8,34.3,34.7,37.4,40.5",
    "standard_deviation",
    2.88,
  ],
  ["TM 5-3805-262-34: .010 under 1.1235 is 1.1135", "next-undersize smallest=1.1228in standard=1.1235in", "size", 1.1135],
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
