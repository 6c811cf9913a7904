// Tightening torque against the sheet's range; the steps of a staged tightening against their own figures.
import type { Place } from "../places/places.ts";
import { type Fastener, FOLLOW_MAKER, fastenerAt, torqueIn } from "./fasteners.ts";
import type { Finding } from "./finding.ts";
import type { Rule } from "./rule.ts";
import { decidedBy, guardedRuling, plainRuling } from "./rulings.ts";
import { at, bounds, figure, sourceText } from "./text.ts";
import { trustOf } from "./uncertainty.ts";

/** How far an early stage may be off its figure: only the last one loads the joint (common practice, no source). */
const STAGE_SLACK = 0.1;

/** The stage's own figure, unless it is the last one. */
function earlyStage(place: Place, fastener: Fastener): number | undefined {
  const { stages } = fastener;
  if (stages === undefined || place.stage === undefined) return undefined;
  const number = Number(place.stage);
  const text = number < stages.length ? stages[number - 1] : undefined;
  return text === undefined ? undefined : Number(text);
}

function remedy(low: boolean, fastener: Fastener, value: number, stage: number | undefined): string {
  // Past a stage but within the last figure nothing is hurt: the joint is only drawn up unevenly.
  if (stage !== undefined && !low && value <= Number(fastener.high))
    return `Bring the others of this stage up to it in turn, centre outward, before the next: the bolt is not past its ${figure(Number(fastener.high), fastener.unit)}.`;
  if (stage !== undefined && low)
    return `Pull it up to the stage's ${figure(stage, fastener.unit)} before the next one, with ${fastener.lubricant} on the thread.`;
  if (low)
    return `Pull it up to ${figure(Number(fastener.low), fastener.unit)} or more, with ${fastener.lubricant} on the thread.`;
  return `Slack it right off and look at bolt and thread; a bolt pulled past its range is renewed, then tightened afresh. ${FOLLOW_MAKER}`;
}

export const TORQUE: Rule = {
  id: "torque",
  title: "Fasteners tightened within their range",
  subjects: (key) => (key.kind === "reading" && key.name === "fastener_torque" ? [{ place: key.place, tag: "" }] : []),
  check: ({ place }, context): Finding | undefined => {
    const fastener = fastenerAt(place, context.spec);
    const logged = context.latest("fastener_torque", place);
    if (fastener === undefined || logged === undefined) return undefined;
    const value = torqueIn(logged, fastener.unit);
    const stage = earlyStage(place, fastener);
    const low = stage === undefined ? Number(fastener.low) : stage * (1 - STAGE_SLACK);
    const high = stage === undefined ? Number(fastener.high) : stage * (1 + STAGE_SLACK);
    const range = bounds({ low, high }, fastener.unit);
    const trust = trustOf({ readings: [logged] }, fastener.unit, context);
    const ready = { accept: { low, high }, reject: undefined, text: range };
    const { decision } = context.spec;
    const ruling =
      trust === undefined ? plainRuling(value, ready, fastener) : guardedRuling(value, ready, fastener, trust, decision);
    const inside = ruling.verdict === "pass";
    const close = ruling.verdict === "unknown";
    const what =
      stage === undefined ? `${fastener.thread}, ${fastener.lubricant}` : `stage ${place.stage} of ${fastener.stages?.length}`;
    const out = value < low ? "below" : "above";
    return {
      rule: "torque",
      verdict: inside || close ? ruling.verdict : stage === undefined || value > Number(fastener.high) ? "fail" : "warn",
      place,
      value,
      limit: range,
      unit: fastener.unit,
      why: `Torque${at(place)} is ${figure(value, fastener.unit)} (${what}): ${close ? ruling.said : `${inside ? "within" : out} ${range}`}.`,
      source: `${sourceText(fastener.source)}${decidedBy(trust, decision, fastener.unit)}`,
      ...(inside
        ? {}
        : close
          ? { remedy: "Pull it again with a wrench that is trusted closer, or set the torque further from the end of its range." }
          : { remedy: remedy(value < low, fastener, value, stage) }),
      ...(logged.step === undefined ? {} : { step: logged.step }),
      evidence: [...logged.evidence],
    };
  },
};
