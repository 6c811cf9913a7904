// Cranking pressure: what a compression gauge would read if nothing leaked.
import { computation, input } from "./computation.ts";
import { ABOVE_ZERO } from "./domain.ts";
import { type Psi, psi, type Ratio, tidy } from "./measure.ts";

/** Standard atmosphere, psi (101.325 kPa by definition; NIST SP 811, B.8). */
export const ATMOSPHERE = psi(14.6959487755);

/** Gauge pressure at the top of a polytropic compression: p (CR^n - 1). An ideal: real engines read less. */
export function crankingPressure(ratioValue: Ratio, exponent: number, atmosphere: Psi = ATMOSPHERE): Psi {
  if (!(ratioValue > 1)) throw new RangeError(`Expected a compression ratio above 1, got ${ratioValue}`);
  return psi(tidy(atmosphere * (ratioValue ** exponent - 1)));
}

export const PRESSURE_COMPUTATIONS = [
  computation({
    id: "cranking-pressure",
    title: "Cranking pressure, ideal",
    inputs: {
      "compression-ratio": input.number("ratio", "compression ratio", { above: 1 }),
      exponent: input.optional("ratio", "polytropic exponent, 1.2 to 1.3 for a slow engine; 1.25 when left out", ABOVE_ZERO),
      atmosphere: input.optional("psi", "air pressure; the standard atmosphere when left out", ABOVE_ZERO),
    },
    unit: "psi",
    formula: "gauge = atmosphere (CR^n - 1)",
    source:
      "polytropic compression, e.g. Heywood, Internal Combustion Engine Fundamentals, ch. 5; exponent common practice, no source",
    run: (x) => ({ value: crankingPressure(x["compression-ratio"], x.exponent ?? 1.25, x.atmosphere) }),
  }),
];
