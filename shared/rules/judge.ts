// One reading held against its limits as it was read, whether or not it has been superseded since: what a timeline shows.

import type { Build, LoggedReading } from "../build/build.ts";
import { convertMeasure } from "../compute/units.ts";
import { RuleContext } from "./context.ts";
import { FIGURES, figuresFrom } from "./figures/figures.ts";
import { valueIn } from "./figures/pick.ts";
import type { FigureValue } from "./figures/types.ts";
import type { Finding } from "./finding.ts";
import { toldFor } from "./finding.ts";
import { limitsAt } from "./limit-bounds.ts";
import { judge } from "./limits.ts";
import { lengthAsSaid, saidFor } from "./text.ts";

/** The reading alone as a figure's value, where the figure is the reading itself or its value over a length. */
function alone(id: string, logged: LoggedReading): FigureValue | undefined {
  const figure = FIGURES.get(id);
  const { over, quantity } = logged.reading;
  if (figure === undefined) return undefined;
  const { stale: _stale, ...fresh } = logged;
  if (figure.unit === "in_per_in") {
    if (over === undefined) return undefined;
    const length = convertMeasure(over.value, over.unit, "in");
    return {
      value: Number(Math.abs(valueIn(logged, "in") / length).toPrecision(12)),
      working: `over ${lengthAsSaid(over)}`,
      readings: [fresh],
    };
  }
  const isItself = id === quantity || (quantity === "bearing_clearance" && (id === "main_clearance" || id === "rod_clearance"));
  if (!isItself || figure.unit === "ratio" || figure.unit === "percent") return undefined;
  return { value: valueIn(logged, figure.unit), working: "", readings: [fresh] };
}

/**
 * Findings of the limit rule about one reading taken by itself, at the value it has now (its newest correction).
 * Bounds that depend on other sizes use those sizes as they stand today.
 */
export function judgeReading(build: Build, logged: LoggedReading, context: RuleContext = new RuleContext(build)): Finding[] {
  const { quantity, place } = logged.reading;
  return figuresFrom(quantity).flatMap((figure) => {
    const value = saidFor(build.spec, () => alone(figure.id, logged));
    if (value === undefined) return [];
    return figure.places(place, build.spec).flatMap((where) =>
      limitsAt(figure, where, context)
        .filter((limit) => limit.condition === undefined || limit.condition === logged.condition)
        .flatMap((limit) => {
          const finding = toldFor(build.spec, () => judge(limit, figure, where, value, context));
          if (finding === undefined) return [];
          const { settled: _settled, ...asRead } = finding;
          return [asRead];
        }),
    );
  });
}
