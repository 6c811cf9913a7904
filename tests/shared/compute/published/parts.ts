// Answers in named parts: published values, or the definition they follow.
import type { PartCase } from "./types.ts";

export const PARTS: readonly PartCase[] = [
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
