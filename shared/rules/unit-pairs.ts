// One figure said in two units in one breath: the two must be the same figure.
import { type LoggedReading, readingKey } from "../build/build.ts";
import type { List } from "../build/layers.ts";
import { checkPair, lastDigitStep, type Stated } from "../compute/unit-pair.ts";
import { dimensionOf } from "../compute/units.ts";
import { isQuantityId, QUANTITIES } from "../quantities/registry.ts";
import type { Rule } from "./rule.ts";
import { at, sentence } from "./text.ts";

const stated = ({ reading }: LoggedReading): Stated => ({
  value: reading.value,
  unit: reading.unit,
  step: lastDigitStep(reading.digits),
});

const said = ({ reading }: LoggedReading): string => `${reading.digits} ${reading.unit.replaceAll("_", "-")}`;
const stands = ({ status }: LoggedReading): boolean => status === "counted" || status === "superseded";

/** The last two standing readings of one thing, when one utterance gave both in different units. */
function pairOf(history: List<LoggedReading>): readonly [LoggedReading, LoggedReading] | undefined {
  const second = history.findLast(stands);
  if (second?.utterance === undefined) return undefined;
  const first = history.findLast(({ order }) => order < second.order);
  if (first === undefined || !stands(first) || first.utterance !== second.utterance) return undefined;
  if (first.reading.unit === second.reading.unit) return undefined;
  return dimensionOf(first.reading.unit) === dimensionOf(second.reading.unit) ? [first, second] : undefined;
}

export const UNIT_PAIR: Rule = {
  id: "unit_pair",
  title: "Two units of one figure agree",
  subjects: (key) => (key.kind === "reading" ? [{ place: key.place, tag: key.name }] : []),
  check: ({ place, tag }, { build }) => {
    if (!isQuantityId(tag)) return undefined;
    const pair = pairOf(build.byKey.get(readingKey(tag, place)) ?? []);
    if (pair === undefined) return undefined;
    const [first, second] = pair;
    const { agrees, converted, difference } = checkPair(stated(first), stated(second));
    const name = sentence(QUANTITIES[tag].label);
    return {
      rule: "unit_pair",
      verdict: agrees ? "pass" : "fail",
      place,
      value: difference,
      limit: null,
      unit: second.reading.unit,
      why: `${name}${at(place)} was given as ${said(first)} and ${said(second)}; ${said(first)} is ${Number(converted.toPrecision(5))} ${second.reading.unit.replaceAll("_", "-")}: ${agrees ? "the same within rounding" : "not the same figure"}.`,
      source: "NIST SP 811 (2008), App. B.8",
      ...(agrees ? {} : { remedy: "Say which of the two is right; until then neither should be trusted." }),
      evidence: [...first.evidence, ...second.evidence],
    };
  },
};
