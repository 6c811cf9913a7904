// Readings that no longer hold because their part was machined or exchanged, and the ones that still wait for a yes.
import { type Build, type LoggedReading, readingKey } from "../build/build.ts";
import { type Place, placeLabel } from "../places/places.ts";
import { isQuantityId, QUANTITIES } from "../quantities/registry.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { RuleContext } from "./context.ts";
import { figuresFrom } from "./figures/figures.ts";
import { valueIn } from "./figures/pick.ts";
import { limitsAt } from "./limit-bounds.ts";
import { outdated, restingOn } from "./rests-on.ts";
import type { Rule, Subject } from "./rule.ts";
import { at, figure } from "./text.ts";

const readingSubject: Rule["subjects"] = (key): Subject[] =>
  key.kind === "reading" && isQuantityId(key.name) ? [{ place: key.place, tag: key.name }] : [];

const readingAndRests: Rule["subjects"] = (key, context) =>
  key.kind === "reading" && isQuantityId(key.name)
    ? [
        { place: key.place, tag: key.name },
        ...[...restingOn(key.name, key.place, context)].map(([tag, place]): Subject => ({ place, tag })),
      ]
    : [];

/** Whether a limit on the reading alone already says that it no longer holds; what hangs on other readings too is said apart. */
function isSaidByLimit(quantity: QuantityId, place: Place, context: RuleContext): boolean {
  return figuresFrom(quantity)
    .filter((row) => row.from.length === 1)
    .some((row) =>
      row
        .places(place, context.spec)
        .some((where) => limitsAt(row, where, context).length > 0 && row.value(where, context)?.readings.length === 1),
    );
}

export const STALE_READING: Rule = {
  id: "stale_reading",
  title: "Readings still hold",
  subjects: readingAndRests,
  check: ({ place, tag }, context) => {
    if (!isQuantityId(tag)) return undefined;
    const logged = context.latest(tag, place);
    // What was found before the work is history, not stale. Figures with a limit say it with their limit.
    if (logged === undefined || logged.condition === "as_found") return undefined;
    const since = logged.stale?.what ?? outdated(logged, context);
    if (since === undefined) return undefined;
    if (isSaidByLimit(tag, place, context)) return undefined;
    const { unit } = QUANTITIES[tag];
    return {
      rule: "stale_reading",
      verdict: "unknown",
      place,
      value: valueIn(logged, unit),
      limit: null,
      unit,
      why: `${QUANTITIES[tag].label}${at(place)}, ${figure(valueIn(logged, unit), unit)}, was read before this: ${since}.`,
      source: "common practice, no source",
      remedy: "Measure it again.",
      evidence: [...logged.evidence, ...(logged.stale === undefined ? [] : [logged.stale.event])],
    };
  },
};

/** The newest reading of a key that waits; looked for among all that wait, which are few, not in the key's history. */
function waitingAt(build: Build, key: string): LoggedReading | undefined {
  let found: LoggedReading | undefined;
  for (const logged of build.waiting.values()) {
    if (readingKey(logged.reading.quantity, logged.reading.place) === key) found = logged;
  }
  return found;
}

export const WAITING_READING: Rule = {
  id: "waiting_reading",
  title: "Nothing heard is left without a yes or no",
  subjects: readingSubject,
  check: ({ place, tag }, { build }) => {
    if (!isQuantityId(tag)) return undefined;
    const logged = waitingAt(build, readingKey(tag, place));
    if (logged === undefined) return undefined;
    const { reading } = logged;
    return {
      rule: "waiting_reading",
      verdict: "unknown",
      place,
      value: null,
      limit: null,
      unit: null,
      why: `Heard ${QUANTITIES[tag].label.toLowerCase()} ${reading.digits} ${reading.unit.replaceAll("_", "-")}${placeLabel(place) === "" ? "" : ` for ${placeLabel(place)}`}: it counts only after a yes.`,
      remedy: 'Say "confirm", or say the figure again.',
      evidence: [...logged.evidence],
    };
  },
};
