// How far a result is known when its inputs are known to half a last digit, and the result rounded to that.
import type { ReadInputs, Value } from "./read.ts";

type Run = (values: Readonly<Record<string, Value>>) => number;

const moved = (value: Value, at: number, by: number): Value =>
  typeof value === "number" ? value + by : Array.isArray(value) ? value.map((item, i) => (i === at ? item + by : item)) : value;

/**
 * Standard uncertainty of a result from the rounding of its inputs: each half step is a rectangular distribution (JCGM 100:2008,
 * 4.3.7), each sensitivity is found by moving the input (5.1.3, note 2), and the parts add in squares (5.1.2).
 * Undefined where the formula ends before a half step does.
 */
export function roundingUncertainty(
  run: Run,
  { values, halfSteps }: Pick<ReadInputs, "values" | "halfSteps">,
): number | undefined {
  let squares = 0;
  for (const [name, halves] of Object.entries(halfSteps)) {
    const value = values[name];
    if (value === undefined) continue;
    for (const [at, half] of halves.entries()) {
      if (half === 0) continue;
      try {
        const change = run({ ...values, [name]: moved(value, at, half) }) - run({ ...values, [name]: moved(value, at, -half) });
        squares += (change / 2) ** 2 / 3;
      } catch (error) {
        if (error instanceof RangeError) return undefined;
        throw error;
      }
    }
  }
  return Math.sqrt(squares);
}

/** `value` to the decimal place of its expanded uncertainty (k = 2), trailing zeros kept; `uncertainty` above zero. Source: JCGM 100:2008, 7.2.6. */
export function roundedTo(value: number, uncertainty: number): string {
  const place = Math.round(Math.log10(2 * uncertainty));
  const step = 10 ** place;
  return (Math.round(value / step) * step).toFixed(Math.min(12, Math.max(0, -place)));
}
