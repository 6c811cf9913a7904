// How well a result is known when its inputs are: to the last digit typed, or to the uncertainty typed beside it.
import type { ReadInputs, Value } from "./read.ts";
import { combinedUncertainty } from "./uncertainty.ts";

type Run = (values: Readonly<Record<string, Value>>) => number;

const moved = (value: Value, at: number, by: number): Value =>
  typeof value === "number" ? value + by : Array.isArray(value) ? value.map((item, i) => (i === at ? item + by : item)) : value;

/**
 * Standard uncertainty of a result: what it changes when each input is moved by its own either way (JCGM 100:2008, 5.1.3, note 2),
 * in squares (5.1.2). Undefined where the formula ends before that.
 */
export function resultUncertainty(run: Run, { values, uncertainties }: Pick<ReadInputs, "values" | "uncertainties">) {
  try {
    const terms = Object.entries(uncertainties).flatMap(([name, all]) =>
      all.map((u, at) => {
        const value = values[name];
        if (u === 0 || value === undefined) return { sensitivity: 0, sources: [] };
        const change = run({ ...values, [name]: moved(value, at, u) }) - run({ ...values, [name]: moved(value, at, -u) });
        return { sensitivity: change / 2 / u, sources: [{ u }] };
      }),
    );
    return combinedUncertainty(terms);
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** `value` to the decimal place of its expanded uncertainty (k = 2), trailing zeros kept; `uncertainty` above zero. Source: JCGM 100:2008, 7.2.6. */
export function roundedTo(value: number, uncertainty: number): string {
  const place = Math.round(Math.log10(2 * uncertainty));
  const step = 10 ** place;
  return (Math.round(value / step) * step).toFixed(Math.min(12, Math.max(0, -place)));
}
