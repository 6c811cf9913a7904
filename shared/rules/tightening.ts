// Nuts of one joint, stage by stage: each stage all round before the next, in the sheet's order, whatever is pulled again afterwards.
import { type LoggedReading, readingKey } from "../build/build.ts";
import { type Place, placeKey } from "../places/places.ts";
import type { RuleContext } from "./context.ts";
import { type Fastener, fastenerAt } from "./fasteners.ts";
import type { Finding } from "./finding.ts";
import type { Rule, Subject } from "./rule.ts";
import { at, list, sentence, sourceText } from "./text.ts";

const lastStage = ({ stages = [] }: Fastener): number => Math.max(stages.length, 1);

/** The number of a stage; "final", or none, is the last one. A pass of its own ("hot") has no place among them. */
function stageOf({ stage }: Place, fastener: Fastener): number | undefined {
  if (stage === undefined || stage === "final" || stage === "last") return lastStage(fastener);
  const number = Number(stage);
  return Number.isInteger(number) ? number : undefined;
}

interface Pull {
  readonly nut: number;
  /** When it was first pulled at this stage. */
  readonly order: number;
  readonly evidence: readonly string[];
}

/** The joint that a nut is one of. */
const jointOf = ({ nut: _nut, stage: _stage, ...joint }: Place): Place => joint;

const standsOrStood = ({ status }: LoggedReading): boolean => status === "counted" || status === "superseded";

/** The nuts of a joint pulled at a stage, in the order in which they first were. */
function pullsAt(joint: Place, stage: number, fastener: Fastener, context: RuleContext): Pull[] {
  const first = new Map<number, Pull>();
  for (const place of context.places("fastener_torque")) {
    const { nut } = place;
    if (typeof nut !== "number" || placeKey(jointOf(place)) !== placeKey(joint) || stageOf(place, fastener) !== stage) continue;
    const logged = [...(context.build.byKey.get(readingKey("fastener_torque", place)) ?? [])].find(standsOrStood);
    if (logged === undefined) continue;
    const known = first.get(nut);
    if (known === undefined || logged.order < known.order)
      first.set(nut, { nut, order: logged.order, evidence: logged.evidence });
  }
  return [...first.values()].sort((a, b) => a.order - b.order);
}

function* subjects(place: Place, context: RuleContext): Iterable<Subject> {
  const fastener = fastenerAt(place, context.spec);
  const stage = fastener === undefined ? undefined : stageOf(place, fastener);
  if (fastener === undefined || stage === undefined || typeof place.nut !== "number") return;
  for (const one of [stage, stage + 1])
    if (one <= lastStage(fastener)) yield { place: { ...jointOf(place), stage: one }, tag: "" };
}

/** The first nut that was pulled before one that the sheet has before it. */
function outOfOrder(pulls: readonly Pull[], order: readonly number[]): readonly [early: Pull, late: Pull] | undefined {
  for (const [i, late] of pulls.entries())
    for (const early of pulls.slice(0, i))
      if (order.includes(late.nut) && order.indexOf(early.nut) > order.indexOf(late.nut)) return [early, late];
  return undefined;
}

export const TIGHTENING: Rule = {
  id: "tightening",
  title: "Nuts tightened in their order, stage by stage",
  subjects: (key, context) => (key.kind === "reading" && key.name === "fastener_torque" ? subjects(key.place, context) : []),
  check: ({ place }, context): Finding | undefined => {
    const fastener = fastenerAt(place, context.spec);
    const stage = Number(place.stage);
    if (fastener === undefined) return undefined;
    const joint = jointOf(place);
    const pulls = pullsAt(joint, stage, fastener, context);
    const before = stage > 1 ? pullsAt(joint, stage - 1, fastener, context) : [];
    const [first] = pulls;
    if (first === undefined || (fastener.order === undefined && before.length === 0)) return undefined;
    const base = {
      rule: "tightening",
      place,
      value: pulls.length,
      limit: null,
      unit: null,
      source: sourceText(fastener.source),
      evidence: pulls.flatMap(({ evidence }) => [...evidence]),
    };
    const name = sentence(at(place).replace(/^ at /, ""));
    // Where the stage before was never told nut by nut, nothing is known of it.
    const skipped =
      before.length === 0 ? [] : pulls.filter(({ nut, order }) => !before.some((one) => one.nut === nut && one.order < order));
    if (skipped.length > 0) {
      return {
        ...base,
        verdict: "warn",
        why: `${name}: nut ${list(skipped.map(({ nut }) => String(nut)))} went to stage ${stage} before stage ${stage - 1}.`,
        remedy:
          "Slack them, take all nuts through the stages in turn, and say each: a joint drawn up unevenly distorts what it holds.",
      };
    }
    const swapped = outOfOrder(pulls, fastener.order ?? []);
    if (swapped !== undefined) {
      return {
        ...base,
        verdict: "warn",
        why: `${name}: nut ${swapped[0].nut} was pulled before nut ${swapped[1].nut}; the sheet's order is ${fastener.order?.join(", ")}.`,
        remedy: "Slack this stage off and pull it again in the sheet's order.",
      };
    }
    const order = fastener.order === undefined ? "after the stage before" : "in the sheet's order";
    return { ...base, verdict: "pass", why: `${name}: ${pulls.length} ${pulls.length === 1 ? "nut" : "nuts"} pulled, ${order}.` };
  },
};
