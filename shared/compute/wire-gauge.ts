// Imperial standard wire gauge: in comes a gauge number, out the wire's diameter in inches.
import { type Inch, inch } from "./measure.ts";

/** Gauge 0 to 50, thousandths of an inch. Source: Standard Wire Gauge (Order in Council of 1883; BS 3737:1964, withdrawn), as tables print it. */
const THOUSANDTHS = [
  324, 300, 276, 252, 232, 212, 192, 176, 160, 144, 128, 116, 104, 92, 80, 72, 64, 56, 48, 40, 36, 32, 28, 24, 22, 20, 18, 16.4,
  14.8, 13.6, 12.4, 11.6, 10.8, 10, 9.2, 8.4, 7.6, 6.8, 6, 5.2, 4.8, 4.4, 4, 3.6, 3.2, 2.8, 2.4, 2, 1.6, 1.2, 1,
] as const;

/** @throws RangeError for what is no whole gauge number from 0 to 50 */
export function wireGauge(number: number): Inch {
  const thousandths = THOUSANDTHS[number];
  if (thousandths === undefined) throw new RangeError(`Expected a wire gauge from 0 to 50, got ${number}`);
  return inch(Number((thousandths / 1000).toPrecision(6)));
}
