// Sizes read off parts that are not at 20 degrees Celsius: said once the error is larger than a tenth of a thou.
import { type LoggedReading, readingKey } from "../build/build.ts";
import { COVERAGE } from "../compute/conformance.ts";
import { celsius, inch, minus } from "../compute/measure.ts";
import { lengthAtReference, MATERIAL_NAMES, materialNamed, REFERENCE } from "../compute/thermal.ts";
import { stepSource, type Warmth } from "../compute/uncertainty.ts";
import { convertDifference, dimensionOf } from "../compute/units.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import type { QuantityId } from "../quantities/types.ts";
import { stepOf } from "../spec/sizes.ts";
import type { Spec } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import { valueIn } from "./figures/pick.ts";
import type { Rule, Subject } from "./rule.ts";
import { at, figure } from "./text.ts";

interface Row {
  readonly quantity: QuantityId;
  /** What the temperature was said of. */
  readonly part: string;
  readonly material: keyof Spec["materials"];
}

const ROWS: readonly Row[] = [
  { quantity: "bore_diameter", part: "block", material: "block" },
  { quantity: "piston_skirt_diameter", part: "piston", material: "piston" },
  { quantity: "main_journal_diameter", part: "crank", material: "crank" },
  { quantity: "crankpin_diameter", part: "crank", material: "crank" },
];

/** Sizes that a temperature bears on. */
export const WARMED: readonly QuantityId[] = ROWS.map(({ quantity }) => quantity);

/** Degrees off the reference that nobody needs to think about (common practice, no source). */
const EASY = 2;
/** A tenth of a thou: below it no shop gauge can tell. */
const TENTH = 0.0001;

/** The temperature of the part that was last said before the reading was taken; the engine's when none was said of the part. */
function temperatureFor(row: Row, logged: LoggedReading, { build }: RuleContext): LoggedReading | undefined {
  let newest: LoggedReading | undefined;
  for (const place of [{ part: row.part }, {}]) {
    // From the end: what was said last is nearly always the one in force.
    const candidate = build.byKey
      .get(readingKey("part_temperature", place))
      ?.findLast(({ order, status }) => order < logged.order && (status === "counted" || status === "superseded"));
    if (candidate !== undefined && (newest === undefined || candidate.order > newest.order)) newest = candidate;
  }
  return newest;
}

/**
 * How warm a part was when its size was read, as far as that was said: its material, the temperature, and how well that is known, by
 * the thermometer that is kept or by the digits said.
 */
export function warmthOf(logged: LoggedReading, context: RuleContext): Warmth | undefined {
  const row = ROWS.find(({ quantity }) => quantity === logged.reading.quantity);
  const said = row === undefined ? undefined : temperatureFor(row, logged, context);
  if (row === undefined || said === undefined) return undefined;
  const material = context.spec.materials[row.material];
  if (!MATERIAL_NAMES.includes(material)) return undefined;
  const thermometer = context.instrumentOf(said);
  const isKept = thermometer !== undefined && dimensionOf(thermometer.unit) === "temperature";
  const step = stepOf(said.reading.digits);
  const u = isKept
    ? convertDifference(Number(thermometer.uncertainty), thermometer.unit, "degC") / COVERAGE
    : convertDifference(stepSource(step).u, said.reading.unit, "degC");
  return { material: materialNamed(material), temperature: valueIn(said, "degC"), u };
}

export const TEMPERATURE: Rule = {
  id: "temperature",
  title: "Sizes are at 20 degrees Celsius",
  subjects: (key, context) => {
    if (key.kind !== "reading") return [];
    // A temperature that is corrected or taken back bears on every size read after it.
    if (key.name === "part_temperature")
      return ROWS.flatMap((row) => [...context.places(row.quantity)].map((place) => ({ place, tag: row.quantity })));
    const row = ROWS.find((candidate) => candidate.quantity === key.name);
    return row === undefined ? [] : [{ place: key.place, tag: row.quantity } satisfies Subject];
  },
  check: ({ place, tag }, context) => {
    const row = ROWS.find((candidate) => candidate.quantity === tag);
    const logged = row === undefined ? undefined : context.latest(row.quantity, place);
    const temperature = row === undefined || logged === undefined ? undefined : temperatureFor(row, logged, context);
    if (row === undefined || logged === undefined || temperature === undefined) return undefined;
    const material = context.spec.materials[row.material];
    if (!MATERIAL_NAMES.includes(material)) return undefined;
    const degrees = celsius(valueIn(temperature, "degC"));
    const size = inch(valueIn(logged, "in"));
    const cold = lengthAtReference(size, degrees, materialNamed(material));
    const error = minus(size, cold);
    const matters = Math.abs(degrees - REFERENCE) > EASY && Math.abs(error) > TENTH;
    const name = `${QUANTITIES[row.quantity].label}${at(place)}`;
    return {
      rule: "temperature",
      verdict: matters ? "warn" : "pass",
      place,
      value: error,
      limit: `${figure(TENTH, "in")} at most`,
      unit: "in",
      why: matters
        ? `${name} was read as ${figure(size, "in")} at ${figure(degrees, "degC")}: with a gauge set on a master at 20 °C that is ${figure(cold, "in")} at 20 °C, ${figure(Math.abs(error), "in")} ${error > 0 ? "less" : "more"}.`
        : `${name} was read at ${figure(degrees, "degC")}: ${figure(Math.abs(error), "in")} off its size at 20 °C.`,
      source: "ISO 1: reference temperature 20 °C; L20 = L / (1 + a (T - 20))",
      ...(matters ? { remedy: "Let it soak to 20 °C and read it again, or set the gauge on a master lying on the part." } : {}),
      evidence: [...temperature.evidence, ...logged.evidence],
    };
  },
};
