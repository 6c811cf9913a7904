// How well a figure is known that several readings make: each reading's parts, how the figure answers to it, and what they share.
import { anyOf, computation, input, Refusal } from "./computation.ts";
import { COVERAGE, resolutionUncertainty } from "./conformance.ts";
import { ABOVE_ZERO, NOT_NEGATIVE, TEMPERATURE } from "./domain.ts";
import { tidy } from "./measure.ts";
import { MATERIAL_NAMES, type Material, materialNamed, REFERENCE } from "./thermal.ts";

/** One reason why a reading may be off. */
export interface Source {
  /** Standard uncertainty, in the reading's unit; below zero where the same cause moves this reading the other way. */
  readonly u: number;
  /** What it comes from, where several readings share it: a gauge's setting, a thermometer. Left out, it is this reading's own. */
  readonly cause?: string;
}

/** One reading's part in a figure. */
export interface Term {
  /** How much the figure moves when the reading moves by one (JCGM 100:2008, 5.1.3). */
  readonly sensitivity: number;
  readonly sources: readonly Source[];
}

/**
 * Combined standard uncertainty of a figure: what is independent adds in squares (JCGM 100:2008, 5.1.2), what has one cause adds
 * straight, with its signs, before it is squared (5.2.2, correlation 1): the setting of one gauge falls out of a difference.
 */
export function combinedUncertainty(terms: readonly Term[]): number {
  let squares = 0;
  const shared = new Map<string, number>();
  for (const { sensitivity, sources } of terms) {
    for (const { u, cause } of sources) {
      if (cause === undefined) squares += (sensitivity * u) ** 2;
      else shared.set(cause, (shared.get(cause) ?? 0) + sensitivity * u);
    }
  }
  for (const sum of shared.values()) squares += sum ** 2;
  return tidy(Math.sqrt(squares));
}

/** How a figure answers to each of its readings, found by moving them a little (JCGM 100:2008, 5.1.3, note 2). */
export function sensitivities(figure: (readings: readonly number[]) => number, readings: readonly number[]): number[] {
  return readings.map((reading, at) => {
    const step = Math.max(Math.abs(reading), 1e-3) * 1e-5;
    const moved = (by: number) => figure(readings.map((other, i) => (i === at ? reading + by : other)));
    // Nine digits: what the differences of doubles leave of it.
    return Number(((moved(step) - moved(-step)) / (2 * step)).toPrecision(9));
  });
}

/** A step that is read, or said, to the nearest: half of it either way, rectangular (JCGM 100:2008, F.2.2.1 and 4.3.7). */
export const stepSource = (step: number): Source => ({ u: resolutionUncertainty(step) });

/**
 * What a gauge of a certificate's expanded uncertainty (k = 2) puts into a reading: its step is each reading's own, the rest (its
 * setting, its scale) is the same in every reading that the gauge gives until it is set again.
 */
export function gaugeSources(gauge: string, expanded: number, step: number): Source[] {
  const own = stepSource(step);
  const rest = (expanded / COVERAGE) ** 2 - own.u ** 2;
  return rest > 0 ? [own, { u: Math.sqrt(rest), cause: gauge }] : [own];
}

/** What a gauge that is right within a share of what it reads puts into a reading: a torque wrench within 4 % (ISO 6789-1:2017), rectangular. */
export const shareSource = (reading: number, percent: number, gauge: string): Source => ({
  u: tidy((Math.abs(reading) * percent) / 100 / Math.sqrt(3)),
  cause: gauge,
});

/** Handbooks differ by some 5 % on a metal's expansion: rectangular (common practice, no source). */
export const EXPANSION_DOUBT = 5;

export interface Warmth {
  readonly material: Material;
  /** degC */
  readonly temperature: number;
  /** Standard uncertainty of the temperature, degC. */
  readonly u: number;
}

/**
 * What temperature puts into a length that is corrected to 20 degC: how well the temperature is known, and how well the expansion
 * is, the more the warmer the part. Source: JCGM 100:2008, H.1.3.3 to H.1.3.4.
 */
export function temperatureSources(length: number, { material, temperature, u }: Warmth, doubt = EXPANSION_DOUBT): Source[] {
  const rise = temperature - REFERENCE;
  return [
    { u: length * material.expansion * u, cause: "thermometer" },
    { u: (length * material.expansion * rise * doubt) / 100 / Math.sqrt(3), cause: `expansion of ${material.id}` },
  ];
}

export const UNCERTAINTY_COMPUTATIONS = [
  computation({
    id: "combined-uncertainty",
    title: "Uncertainty of a figure from several readings",
    inputs: {
      uncertainties: {
        ...input.list("any", "standard uncertainty of each reading", 1, 64, NOT_NEGATIVE),
        difference: true as const,
      },
      sensitivities: {
        ...input.list(
          "ratio",
          "how the figure answers to each: 1,-1 for a difference, 0.5 for a bend from TIR; 1 each when left out",
          1,
          64,
        ),
        optional: true as const,
      },
      causes: input.optionalText(
        "a name for each, the same where one gauge or setting moves them together, - where nothing does",
      ),
    },
    unit: "any",
    formula: "u^2 = sum over causes of (sum of sensitivity x u)^2; readings without a cause of their own each alone; U = 2u",
    source: "JCGM 100:2008 (GUM), 5.1.2 (independent) and 5.2.2 (correlation 1 within a cause), 6.2.1",
    run: (x) => {
      const names = x.causes?.split(",");
      for (const list of [x.sensitivities, names]) {
        if (list !== undefined && list.length !== x.uncertainties.length) {
          throw new Refusal(
            "bad_count",
            `Expected ${x.uncertainties.length} of each, as many as uncertainties, got ${list.length}`,
          );
        }
      }
      const u = combinedUncertainty(
        x.uncertainties.map((value, i) => {
          const cause = names?.[i]?.trim();
          return {
            sensitivity: x.sensitivities?.[i] ?? 1,
            sources: [cause === undefined || cause === "-" || cause === "" ? { u: value } : { u: value, cause }],
          };
        }),
      );
      return { value: u, parts: { expanded: tidy(COVERAGE * u) } };
    },
  }),
  computation({
    id: "temperature-uncertainty",
    title: "What temperature leaves uncertain in a length",
    inputs: {
      length: input.number("any", "length as read", ABOVE_ZERO),
      material: input.text("what the part is made of", MATERIAL_NAMES),
      temperature: input.number("degC", "temperature of the part", TEMPERATURE),
      within: {
        ...input.number("degC", "how well it is known: standard uncertainty", NOT_NEGATIVE),
        difference: true as const,
      },
      doubt: input.optional("percent", "how far off the coefficient may be, either way; 5 % when left out", NOT_NEGATIVE),
    },
    unit: "any",
    formula: "u^2 = (L a u(T))^2 + (L (T - 20) u(a))^2; u(a) = doubt x a / sqrt 3",
    source: "JCGM 100:2008 (GUM), H.1.3.3 and H.1.3.4; ISO 1:2022",
    run: (x, given) => {
      const material = materialNamed(x.material);
      const sources = temperatureSources(x.length, { material, temperature: x.temperature, u: x.within }, x.doubt);
      const [fromTemperature = { u: 0 }, fromExpansion = { u: 0 }] = sources;
      return {
        value: combinedUncertainty([{ sensitivity: 1, sources }]),
        unit: anyOf("length", given),
        parts: { from_temperature: tidy(fromTemperature.u), from_expansion: tidy(Math.abs(fromExpansion.u)) },
      };
    },
  }),
];
