// Fastening: published values for torque, preload, threads and castle nuts. "memory" marks a figure recalled, not read again.
import type { Cases } from "./types.ts";

export const FASTENING: Cases = {
  extension: [
    [
      "TM 1-1500-204-23-9, fig. 8-16: 300 in-lb, 10 in wrench, 4 in attachment",
      "extension torque=300in_lbf length=10in extension=4in",
      214,
      0.5,
    ],
    [
      "by NAVEDTRA 14315, fig. 3-44: inputs read, answer worked out",
      "extension torque=100in_lbf length=12in extension=6in",
      66.67,
      0.01,
    ],
    [
      "a torque wrench's printed instructions: 50 ft-lb, 16 in, 2 in",
      "extension torque=50ft_lbf length=16in extension=2in",
      44.44,
      0.01,
    ],
    [
      "by TM 9-254, fig. 4-6: an extension at 90 degrees changes nothing",
      "extension torque=50ft_lbf length=16in extension=2in angle=90",
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
    ["Shigley, 9th ed., Table 8-2: 3/8-24", "stress-area diameter=0.375in threads-per-inch=24", 0.0878, 0.0001],
    ["Shigley, 9th ed., Table 8-2: 7/16-20", "stress-area diameter=0.4375in threads-per-inch=20", 0.1187, 0.0001],
    ["Shigley, 9th ed., Table 8-2: 1/2-20", "stress-area diameter=0.5in threads-per-inch=20", 0.1599, 0.0001],
    ["Shigley, 9th ed., Table 8-2: 3/4-16", "stress-area diameter=0.75in threads-per-inch=16", 0.373, 0.0005],
  ],
  "metric-stress-area": [
    ["Shigley, 9th ed., Table 8-1: M8 x 1.25: 36.6 mm2", "metric-stress-area diameter=8mm pitch=1.25mm", 36.6, 0.05],
    ["Shigley, 9th ed., Table 8-1: M10 x 1.5: 58.0 mm2", "metric-stress-area diameter=10mm pitch=1.5mm", 58.0, 0.05],
    ["Shigley, 9th ed., Table 8-1: M12 x 1.75: 84.3 mm2", "metric-stress-area diameter=12mm pitch=1.75mm", 84.3, 0.05],
    ["Shigley, 9th ed., Table 8-1: M16 x 2: 157 mm2", "metric-stress-area diameter=16mm pitch=2mm", 157, 0.5],
  ],
  "torque-angle": [
    ["thread geometry: a quarter turn of a 1.5 pitch is a quarter of it", "torque-angle angle=90deg pitch=1.5mm", 0.375, 0],
    ["thread geometry: a sixth of a turn at 24 threads", "torque-angle angle=60deg threads-per-inch=24", 1 / 144, 1e-9],
  ],
  "bolt-stretch": [
    [
      "by TM 55-1905-223-24-1: stretch is tight less zero reading; 0.0135 to 0.0185 in accepted",
      "bolt-stretch tight=8.0165in free=8.0000in",
      0.0165,
      0,
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
};
