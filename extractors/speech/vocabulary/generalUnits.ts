// Units of general English for the numbers mode, as data: id -> the ways it is said. Units whose meaning needs a subject
// (pounds, degrees, tenths) are apart: there a number is not read at all.

/** Contract units keep their contract id; the rest have their usual symbol. */
export const GENERAL_UNITS: Readonly<Record<string, readonly string[]>> = {
  in: ["inch", "inches"],
  ft: ["foot", "feet", "ft"],
  yd: ["yard", "yards", "yd", "yds"],
  mi: ["mile", "miles"],
  mm: ["millimeter", "millimeters", "millimetre", "millimetres", "mm"],
  cm: ["centimeter", "centimeters", "centimetre", "centimetres", "cm"],
  dm: ["decimeter", "decimeters", "decimetre", "decimetres"],
  m: ["meter", "meters", "metre", "metres"],
  km: ["kilometer", "kilometers", "kilometre", "kilometres", "kilo meters", "kilo metres", "km", "kms"],
  um: ["micrometer", "micrometers", "micrometre", "micrometres", "micron", "microns", "um"],
  nm: ["nanometer", "nanometers", "nanometre", "nanometres"],
  mg: ["milligram", "milligrams", "mg"],
  g: ["gram", "grams", "gramme", "grammes"],
  kg: ["kilogram", "kilograms", "kilo grams", "kilo", "kilos", "kg", "kgs"],
  oz: ["ounce", "ounces", "oz"],
  lb: ["lb", "lbs"],
  ml: ["milliliter", "milliliters", "millilitre", "millilitres", "ml", "mls"],
  cl: ["centiliter", "centiliters", "centilitre", "centilitres"],
  l: ["liter", "liters", "litre", "litres"],
  kl: ["kiloliter", "kiloliters", "kilolitre", "kilolitres", "kilo liters", "kilo liter", "kilo litres", "kilo litre"],
  cc: ["cc", "ccs", "c c", "cubic centimeter", "cubic centimeters", "cubic centimetre", "cubic centimetres"],
  dm3: ["cubic decimeter", "cubic decimeters", "cubic decimetres", "cubic deci meter", "cubic deci meters", "cubic deci metres"],
  m3: ["cubic meter", "cubic meters", "cubic metre", "cubic metres"],
  in3: ["cubic inch", "cubic inches"],
  gal: ["gallon", "gallons", "gal"],
  qt: ["quart", "quarts"],
  pt: ["pint", "pints"],
  degC: ["celsius", "degrees celsius", "degree celsius", "centigrade", "degrees centigrade"],
  degF: ["fahrenheit", "degrees fahrenheit", "degree fahrenheit"],
  psi: ["psi", "p s i", "pounds per square inch"],
  kPa: ["kilopascal", "kilopascals", "kpa"],
  bar: ["bar"],
  "kgf/cm2": [
    "kilograms force per square centimeter",
    "kilograms force per square centimetre",
    "kilogram force per square centimeter",
  ],
  ft_lbf: ["foot pounds", "foot pound"],
  in_lbf: ["inch pounds", "inch pound"],
  N_m: ["newton meters", "newton metres", "newton meter", "newton metre"],
  N: ["newton", "newtons"],
  mph: ["miles per hour", "miles an hour", "mph"],
  "km/h": ["kilometers per hour", "kilometres per hour", "kilometers an hour", "kmh", "kph"],
  thou: ["thou"],
};

/** Longest composite first to last, each with its count of the next: "five feet two inches" stays in inches. */
export const COMPOSITE: readonly (readonly [unit: string, inNext: number])[] = [
  ["yd", 3],
  ["ft", 12],
  ["in", 1],
];

/** Units that mean one thing or another by what is measured; on a bench such a number is a question. */
export const SUBJECT_UNITS: ReadonlySet<string> = new Set(["pound", "pounds", "degree", "degrees", "deg", "°", "mil", "mils"]);

/** Denominators said as words. Tenths, hundredths and thousandths are units on a bench and are apart. */
export const DENOMINATORS: Readonly<Record<string, number>> = {
  half: 2,
  halves: 2,
  halfs: 2,
  third: 3,
  thirds: 3,
  quarter: 4,
  quarters: 4,
  fourth: 4,
  fourths: 4,
  fifth: 5,
  fifths: 5,
  sixth: 6,
  sixths: 6,
  seventh: 7,
  sevenths: 7,
  eighth: 8,
  eighths: 8,
  ninth: 9,
  ninths: 9,
  twelfth: 12,
  twelfths: 12,
  sixteenth: 16,
  sixteenths: 16,
  twentieth: 20,
  twentieths: 20,
  thirtieth: 30,
  thirtieths: 30,
  "thirty second": 32,
  "thirty seconds": 32,
  fortieth: 40,
  fortieths: 40,
  fiftieth: 50,
  fiftieths: 50,
  "sixty fourth": 64,
  "sixty fourths": 64,
};
export const BENCH_DENOMINATORS: Readonly<Record<string, number>> = {
  tenth: 10,
  tenths: 10,
  hundredth: 100,
  hundredths: 100,
  thousandth: 1000,
  thousandths: 1000,
};
/** Ordinals that are no denominators; a number that runs into one is a rank, not a measure. */
export const RANKS: ReadonlySet<string> = new Set([
  "first",
  "second",
  "seconds",
  "eleventh",
  "thirteenth",
  "fourteenth",
  "fifteenth",
  "seventeenth",
  "eighteenth",
  "nineteenth",
  "seventieth",
  "eightieth",
  "ninetieth",
  "millionth",
  "billionth",
  "trillionth",
  "oneths",
]);
export const SCALES: Readonly<Record<string, number>> = { million: 1e6, millions: 1e6, billion: 1e9, billions: 1e9 };
/** Words that make any number after them vague, or a name. */
export const VAGUE: ReadonlySet<string> = new Set(["several", "few", "couple", "many", "some", "single", "pair"]);
/** "that one", "one of them": a pronoun. */
export const BEFORE_PRONOUN: ReadonlySet<string> = new Set([
  "the",
  "this",
  "that",
  "which",
  "another",
  "each",
  "every",
  "no",
  "any",
  "some",
]);
export const AFTER_PRONOUN: ReadonlySet<string> = new Set([
  "of",
  "may",
  "can",
  "could",
  "might",
  "must",
  "should",
  "would",
  "will",
  "s",
]);
export const MONTHS: ReadonlySet<string> = new Set([
  "january",
  "february",
  "march",
  "april",
  "may",
  "june",
  "july",
  "august",
  "september",
  "october",
  "november",
  "december",
]);
