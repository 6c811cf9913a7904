// Standards: conversions, tolerance grades, repeated readings. "memory" marks a figure recalled, not read again.
import type { Cases } from "./types.ts";

export const STANDARDS: Cases = {
  repeatability: [
    [
      "Shigley, 9th ed., Table 8-14: mean of ten preloads, kN",
      "repeatability readings=30.3,32.5,32.5,32.9,32.9,33.8,34.3,34.7,37.4,40.5",
      34.18,
      0.005,
    ],
  ],
  "combined-uncertainty": [
    [
      "JCGM 100:2008, H.1.4: 25, 9.7, 2.9 and 16.6 nm are 32 nm (memory)",
      "combined-uncertainty uncertainties=25,9.7,2.9,16.6",
      32,
      0.5,
    ],
    [
      "JCGM 100:2008, 5.2.2: ten resistors of one standard, 0.1 ohm each: 1 ohm",
      "combined-uncertainty uncertainties=.1,.1,.1,.1,.1,.1,.1,.1,.1,.1 causes=s,s,s,s,s,s,s,s,s,s",
      1,
      1e-12,
    ],
  ],
  "temperature-uncertainty": [
    [
      "JCGM 100:2008, H.1.3.4: 50 mm of steel, 0.029 degC: 16.6 nm (memory)",
      "temperature-uncertainty length=50mm material=steel temperature=20degC within=0.029degC",
      16.6e-6,
      0.1e-6,
    ],
  ],
  "tolerance-grade": [
    ["ISO 286-1:2010, Table 1, 50 to 80 mm: IT01 0.8 (memory)", "tolerance-grade size=60mm grade=IT01", 0.8, 0],
    ["ISO 286-1:2010, Table 1, 50 to 80 mm: IT0 1.2 (memory)", "tolerance-grade size=60mm grade=IT0", 1.2, 0],
    ["ISO 286-1:2010, Table 1, 50 to 80 mm: IT1 2", "tolerance-grade size=60mm grade=IT1", 2, 0],
    ["ISO 286-1:2010, Table 1, 80 to 120 mm: IT5 15", "tolerance-grade size=98.4mm grade=IT5", 15, 0],
    ["ISO 286-1:2010, Table 1, 80 to 120 mm: IT7 35", "tolerance-grade size=98.4mm grade=IT7", 35, 0],
    ["ISO 286-1:2010, Table 1, 80 to 120 mm: IT11 220", "tolerance-grade size=120mm grade=IT11", 220, 0],
    ["ISO 286-1:2010, Table 1, 50 to 80 mm: IT6 19", "tolerance-grade size=2in grade=IT6", 19, 0],
    ["ISO 286-1:2010, Table 1, 18 to 30 mm: IT7 21", "tolerance-grade size=30mm grade=7", 21, 0],
    ["ISO 286-1:2010, Table 1, 30 to 50 mm: IT8 39", "tolerance-grade size=30.001mm grade=it8", 39, 0],
    ["ISO 286-1:2010, Table 1: IT14 is 0.36 mm at 10 mm", "tolerance-grade size=10mm grade=IT14", 360, 0],
    ["ISO 286-1:2010, Table 1: IT14 is 0.87 mm at 100 mm", "tolerance-grade size=100mm grade=IT14", 870, 0],
  ],
  capability: [
    [
      "rule of ten, no source: .001 feeler on a .0059 tolerance",
      "capability resolution=.001in low=.0117in high=.0176in",
      0.169491525424,
      1e-9,
    ],
  ],
  "capability-index": [
    [
      "by JCGM 106:2012, 7.6.3: T/(4 u), here .0059 / (4 x .0003)",
      "capability-index uncertainty=.0003in low=.0117in high=.0176in",
      4.9166667,
      1e-6,
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
    ["BS 3737:1964: 20 s.w.g. is .036 in", "convert value=20swg to=in", 0.036, 0],
    ["BS 3737:1964: 10 s.w.g. is .128 in", "convert value=10swg to=thou", 128, 1e-9],
    ["BS 3737:1964: 38 s.w.g. is .0060 in", "convert value=38swg to=in", 0.006, 0],
    ["definition: a tenth is a tenth of a thou, 2.54 um", "convert value=3tenths to=um", 7.62, 0],
    ["definition: a hundredth is one of a millimetre", "convert value=5hundredths to=um", 50, 0],
    [
      "NIST SP 811, B.8: kilogram-force per square centimetre to kilopascal 98.0665, exact",
      "convert value=1kgf/cm2 to=kPa",
      98.0665,
      0,
    ],
    ["NIST SP 811, B.8: psi to megapascal 6.894 757 E-03", "convert value=1000psi to=MPa", 6.894757, 5e-7],
    ["NIST SP 811, B.8: ksi to megapascal 6.894 757", "convert value=1ksi to=MPa", 6.894757, 5e-7],
    ["NIST SP 811, B.8: pound-force to newton 4.448 222", "convert value=1000lbf to=kN", 4.448222, 5e-7],
    [
      "NIST SP 811, B.8: pound-force per inch to newton per metre 1.751 268 E+02",
      "convert value=1lbf/in to=N/mm",
      0.1751268,
      5e-8,
    ],
    ["TM 9-2815-254-24: 123 ft-lbs is 166.8 N.m", "convert value=123ft-lbs to=N.m", 166.8, 0.05],
    ["the ice point and body heat: 98.6 degF is 37 degC", "convert value=98.6degF to=degC", 37, 1e-9],
  ],
  conformance: [
    [
      "JCGM 106:2012, a viscosity between 12.5 and 16.3, read 13.6 with u 1.8: 0.66 (memory)",
      "conformance value=13.6 uncertainty=1.8 low=12.5 high=16.3",
      0.66,
      0.005,
    ],
  ],
};
