// Sizes of a sheet that no engine has, or that do not go together: most likely figures of the other system, and refused as such.
import { dimensionOf } from "../compute/units.ts";
import type { NominalKey } from "../quantities/types.ts";
import { FIGURE_UNITS, figureUnit, lengthIn, lengthUnit, nominalsIn } from "./sizes.ts";
import type { Spec } from "./spec.ts";

export interface Nonsense {
  readonly path: readonly (string | number)[];
  /** "Expected X for Y, got Z". */
  readonly say: string;
}

const MOST = 1e9;

interface Span {
  readonly low: number;
  readonly high: number;
}

/**
 * What sizes of engines can be, millimetres: from a model's to a stationary engine's (ours, no source). Far enough apart that no size
 * in inches passes for one in millimetres on both, which is how a sheet in the wrong system is found out.
 */
const SIZES_MM: Readonly<Record<NominalKey, Span>> = {
  bore: { low: 10, high: 600 },
  piston_skirt: { low: 10, high: 600 },
  stroke: { low: 10, high: 900 },
  main_journal: { low: 5, high: 400 },
  crankpin: { low: 5, high: 400 },
  pin: { low: 3, high: 200 },
  valve_stem: { low: 2, high: 30 },
  lobe_lift: { low: 1, high: 40 },
  valve_spring_length: { low: 8, high: 250 },
  main_housing: { low: 5, high: 450 },
  rod_housing: { low: 5, high: 450 },
};
/** And beside the bore, times as large: one size in inches and one in millimetres on a sheet are 25 apart (ours, no source). */
const BY_BORE: Readonly<Partial<Record<NominalKey, Span>>> = {
  stroke: { low: 0.3, high: 4 },
  piston_skirt: { low: 0.8, high: 1.2 },
  main_journal: { low: 0.1, high: 1.5 },
  crankpin: { low: 0.1, high: 1.5 },
  pin: { low: 0.08, high: 0.6 },
};

/** Millimetres in the sheet's own system, to so many digits. */
const shown = (mm: number, spec: Spec, digits: number): string =>
  String(Number((lengthUnit(spec) === "mm" ? mm : mm / 25.4).toPrecision(digits)));
const range = ({ low, high }: Span, spec: Spec): string =>
  `${shown(low, spec, 2)} to ${shown(high, spec, 2)} ${lengthUnit(spec)}`;
const bareUnit = (text: string, spec: Spec): string => (/[a-z]/.test(text) ? "" : ` ${lengthUnit(spec)}`);

/** Sizes no engine has, and sizes that do not go together: most likely figures of the other system. */
export function ofNominals(spec: Spec): Nonsense[] {
  const [bore] = nominalsIn(spec, "bore", "mm");
  return Object.entries(spec.nominals).flatMap(([name, sizes = []]) =>
    sizes.flatMap((text, i): Nonsense[] => {
      const key = name as NominalKey;
      const mm = lengthIn(text, spec, "mm");
      const got = `${text}${bareUnit(text, spec)}`;
      const path = ["nominals", name, i];
      const other = lengthUnit(spec) === "mm" ? "in" : "mm";
      const hint = `: write the unit behind a figure in ${other}`;
      if (!within(mm, SIZES_MM[key]))
        return [{ path, say: `Expected ${name} of ${range(SIZES_MM[key], spec)}, got ${got}${hint}` }];
      const share = BY_BORE[key];
      if (bore === undefined || !within(bore, SIZES_MM.bore) || share === undefined || within(mm / bore, share)) return [];
      return [
        {
          path,
          say: `Expected ${name} of ${share.low} to ${share.high} times the bore of ${shown(bore, spec, 6)} ${lengthUnit(spec)}, got ${got}${hint}`,
        },
      ];
    }),
  );
}

const within = (value: number, { low, high }: Span): boolean => value >= low && value <= high;

/** Over- and undersizes are small steps: none of them is a tenth of the bore. */
const STEP_MM = { low: -6.5, high: 6.5 };

export function ofSteps(spec: Spec): Nonsense[] {
  return (["oversizes", "undersizes"] as const).flatMap((list) =>
    spec[list].flatMap((text, i) =>
      within(lengthIn(text, spec, "mm"), STEP_MM)
        ? []
        : [
            {
              path: [list, i],
              say: `Expected a step of ${range(STEP_MM, spec)}, got ${text.slice(0, 40)}${bareUnit(text, spec)}`,
            },
          ],
    ),
  );
}

/** Figures that computations take must be in a unit of what they are; what else stands there is only shown. */
export function ofFigures({ figures }: Spec): Nonsense[] {
  return Object.entries(figures).flatMap(([name, { value, unit }]): Nonsense[] => {
    if (!(Math.abs(Number(value)) <= MOST))
      return [{ path: ["figures", name], say: `Expected a figure from ${-MOST} to ${MOST}, got ${value.slice(0, 40)}` }];
    const to = FIGURE_UNITS[name];
    const from = figureUnit(unit);
    if (to === undefined || (from !== undefined && dimensionOf(from) === dimensionOf(to))) return [];
    return [{ path: ["figures", name, "unit"], say: `Expected a unit of ${dimensionOf(to)} for ${name}, got "${unit}"` }];
  });
}

/** Bolts of engines, thick and thin, and pitches of threads: M3 to M48 and their like in inches. */
const BOLT_MM = { low: 2.5, high: 50 };
const PITCH_MM = { low: 0.25, high: 6 };

export function ofThread(name: string, row: NonNullable<Spec["fasteners"]["rod"]>, spec: Spec): Nonsense[] {
  const at = (field: string, say: string): Nonsense => ({ path: ["fasteners", name, field], say });
  const across = lengthIn(row.majorDiameter, spec, "mm");
  const found: Nonsense[] = [];
  if (!(across >= BOLT_MM.low && across <= BOLT_MM.high))
    found.push(
      at(
        "majorDiameter",
        `Expected a bolt of ${range(BOLT_MM, spec)}, got ${row.majorDiameter}${bareUnit(row.majorDiameter, spec)}`,
      ),
    );
  if ((row.pitch === undefined) === (row.threadsPerInch === undefined))
    found.push(at("pitch", `Expected threadsPerInch or a pitch in mm, got ${row.pitch === undefined ? "neither" : "both"}`));
  else if (row.pitch !== undefined && !(Number(row.pitch) >= PITCH_MM.low && Number(row.pitch) <= PITCH_MM.high))
    found.push(at("pitch", `Expected a pitch from ${PITCH_MM.low} to ${PITCH_MM.high} mm, got ${row.pitch}`));
  return found;
}
