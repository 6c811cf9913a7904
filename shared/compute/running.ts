// Tests under pressure and the first hours: leak-down, water-jacket test, oil pump, run-in.
import { COMMON_PRACTICE, computation, GEOMETRY, inches, input, Refusal } from "./computation.ts";
import { ABOVE_ZERO, NOT_NEGATIVE, TEMPERATURE } from "./domain.ts";
import { type Celsius, type Inch, largest, minus, type Psi, psi, smallest, tidy, times } from "./measure.ts";
import { ATMOSPHERE } from "./pressure.ts";

/** Share of the air that leaks away. Source: FAA AC 43.13-1B, 8-14 (differential test: 60 of 80 psi is a quarter lost). @throws RangeError when the cylinder reads more than it is fed */
export function leakDown(supply: Psi, cylinder: Psi): number {
  if (cylinder > supply) throw new RangeError(`Expected a cylinder at or below its supply of ${supply} psi, got ${cylinder} psi`);
  return tidy(100 * (1 - cylinder / supply));
}

const KELVIN = 273.15;

/** What air shut in at `start` would read at another temperature. Gauge pressures; Gay-Lussac's law on absolute ones. */
export function airAt(start: Psi, from: Celsius, to: Celsius): Psi {
  return psi(tidy(((start + ATMOSPHERE) * (to + KELVIN)) / (from + KELVIN) - ATMOSPHERE));
}

/** Length of pocket less length of gear; and half of pocket's bore less gear's outside. */
export const endClearance = (pocket: Inch, gear: Inch): Inch => minus(pocket, gear);
export const bodyClearance = (pocket: Inch, gear: Inch): Inch => times(minus(pocket, gear), 0.5);

function paired<A, B>(a: readonly A[] | undefined, b: readonly B[] | undefined, names: string): void {
  if ((a === undefined) === (b === undefined) && a?.length === b?.length) return;
  throw new Refusal(
    "bad_count",
    `Expected as many of one as of the other for ${names}, got ${a?.length ?? 0} and ${b?.length ?? 0}`,
  );
}

export const RUNNING_COMPUTATIONS = [
  computation({
    id: "leak-down",
    title: "Leak-down",
    inputs: {
      supply: input.number("psi", "regulated pressure, gauge", ABOVE_ZERO),
      cylinder: input.number("psi", "pressure behind the orifice, gauge", NOT_NEGATIVE),
    },
    unit: "percent",
    formula: "leak = 100 (1 - cylinder / supply)",
    source: "FAA AC 43.13-1B, 8-14: differential compression test",
    run: (x) => ({ value: leakDown(x.supply, x.cylinder) }),
  }),
  computation({
    id: "jacket-test",
    title: "Pressure lost in a water-jacket test",
    inputs: {
      start: input.number("psi", "pressure at the start, gauge", ABOVE_ZERO),
      end: input.number("psi", "pressure at the end, gauge", NOT_NEGATIVE),
      time: input.number("min", "how long it stood", ABOVE_ZERO),
      allowed: input.optional("psi", "loss that still counts as holding; none when left out", NOT_NEGATIVE),
      "start-temperature": input.optional("degC", "of the air in it at the start, where it was air", TEMPERATURE),
      "end-temperature": input.optional("degC", "of the air in it at the end", TEMPERATURE),
    },
    unit: "psi",
    formula:
      "loss = start - end; for air that changed its temperature the start is first taken to it: (start + atmosphere) T2 / T1 - atmosphere",
    source: `Gay-Lussac's law for the temperature; the test itself: ${COMMON_PRACTICE}`,
    run: (x) => {
      const [from, to] = [x["start-temperature"], x["end-temperature"]];
      if ((from === undefined) !== (to === undefined)) {
        throw new Refusal("missing_input", "Expected both temperatures of the air or neither for jacket-test, got one");
      }
      const start = from === undefined || to === undefined ? x.start : airAt(x.start, from, to);
      const loss = tidy(minus(start, x.end));
      return {
        value: loss,
        parts: { loss_a_minute: { value: tidy(psi(loss / x.time)), unit: "psi" }, held: loss <= (x.allowed ?? 0) },
      };
    },
  }),
  computation({
    id: "oil-pump",
    title: "Clearances and pressure of an oil pump",
    inputs: {
      "pocket-depth": input.optional("in", "depth of the gear's pocket, gasket with it", ABOVE_ZERO),
      "gear-length": input.optional("in", "length of the gear", ABOVE_ZERO),
      "pocket-diameter": input.optional("in", "bore of the pocket", ABOVE_ZERO),
      "gear-diameter": input.optional("in", "gear over its tips", ABOVE_ZERO),
      tip: input.optional("in", "feeler between the tips, or between tooth and body", NOT_NEGATIVE),
      pressures: { ...input.list("psi", "oil pressure at each speed, hot", 1, 24, NOT_NEGATIVE), optional: true as const },
      speeds: { ...input.list("rpm", "speed of each pressure", 1, 24, ABOVE_ZERO), optional: true as const },
    },
    unit: "in",
    formula:
      "end = pocket depth - gear length; body = (pocket - gear diameter) / 2; pressure a thousand = 1000 pressure / speed, the lowest",
    source: `${GEOMETRY}; pressure by the thousand revolutions: ${COMMON_PRACTICE}`,
    run: (x) => {
      const { pressures, speeds, tip } = x;
      paired(pressures, speeds, "pressures and speeds");
      const both = (a: Inch | undefined, b: Inch | undefined, work: (a: Inch, b: Inch) => Inch) =>
        a === undefined || b === undefined ? undefined : inches(work(a, b));
      const end = both(x["pocket-depth"], x["gear-length"], endClearance);
      const body = both(x["pocket-diameter"], x["gear-diameter"], bodyClearance);
      const perThousand = pressures?.map((pressure, i) => psi(tidy((1000 * pressure) / (speeds?.[i] ?? Number.NaN))));
      const parts = {
        ...(end === undefined ? {} : { end }),
        ...(body === undefined ? {} : { body }),
        ...(tip === undefined ? {} : { tip: inches(tip) }),
        ...(perThousand === undefined ? {} : { pressure_a_thousand: { value: smallest(perThousand), unit: "psi" as const } }),
      };
      if (Object.keys(parts).length === 0) {
        throw new Refusal(
          "missing_input",
          "Expected a pocket with its gear, a tip, or pressures with speeds for oil-pump, got none",
        );
      }
      return { value: parts };
    },
  }),
  computation({
    id: "run-in",
    title: "What a run-in came to",
    inputs: {
      times: input.list("min", "how long each stage ran", 1, 48, ABOVE_ZERO),
      speeds: input.list("rpm", "speed of each stage", 1, 48, ABOVE_ZERO),
      loads: { ...input.list("percent", "load of each stage", 1, 48, { least: 0, most: 110 }), optional: true as const },
      temperatures: { ...input.list("degC", "coolant at the end of each stage", 1, 48, TEMPERATURE), optional: true as const },
      retorqued: input.optional("min", "running time after which the head was tightened again", ABOVE_ZERO),
    },
    unit: "min",
    formula: "time = sum of the stages; turns = sum of time x speed",
    source: COMMON_PRACTICE,
    run: (x) => {
      const { speeds, loads, temperatures, retorqued } = x;
      paired(x.times, speeds, "times and speeds");
      if (loads !== undefined) paired(x.times, loads, "times and loads");
      if (temperatures !== undefined) paired(x.times, temperatures, "times and temperatures");
      const total = x.times.reduce<number>((sum, time) => sum + time, 0);
      const turns = x.times.reduce<number>((sum, time, i) => sum + time * (speeds[i] ?? 0), 0);
      return {
        value: tidy(total),
        parts: {
          turns: tidy(turns),
          mean_rpm: tidy(turns / total),
          ...(loads === undefined ? {} : { most_load_percent: largest(loads) }),
          ...(temperatures === undefined ? {} : { hottest: { value: largest(temperatures), unit: "degC" as const } }),
          head_retorqued: retorqued !== undefined && retorqued <= total,
        },
      };
    },
  }),
];
