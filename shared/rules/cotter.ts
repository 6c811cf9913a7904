// A cotter in every castle nut, fitted after the nut's last tightening; asked for once the tightening step is closed.
import { type Place, placeMatches } from "../places/places.ts";
import type { StepId } from "../steps/steps.ts";
import type { RuleContext } from "./context.ts";
import { castleNuts, fastenerAt, nutOf, torqueAt } from "./fasteners.ts";
import type { Rule, Subject } from "./rule.ts";
import { at } from "./text.ts";

/** Steps that hide the nuts or turn the engine. */
const COVERING: readonly StepId[] = ["splash", "turn_over", "first_run", "hand_over"];

const isDue = ({ build }: RuleContext): boolean =>
  build.steps.get("final_torque")?.closed !== undefined ||
  COVERING.some((step) => build.steps.has(step)) ||
  build.handedOver !== undefined;

const isMissing = (text: string): boolean => /\b(no|not|without|missing|absent)\b|_?(missing|absent|not_fitted)$/i.test(text);

/** When a cotter was last seen in a nut: by a word said, or by a photo taken for it. */
function fittedAt(context: RuleContext, nut: Place): { order: number; id: string } | undefined {
  const notes = context.notes("cotter").filter(({ note }) => placeMatches(nutOf(note.place ?? {}), nut));
  const said = notes.filter(({ note }) => !isMissing(note.state ?? note.text)).map(({ order, id }) => ({ order, id }));
  const taken = context
    .photos("cotter")
    .filter(({ place }) => placeMatches({ ...pick(nut) }, { rod: place.rod ?? place.cylinder, main: place.main }))
    .map(({ order, id }) => ({ order, id }));
  return [...said, ...taken].sort((a, b) => b.order - a.order)[0];
}

const pick = ({ rod, main }: Place): Place => ({
  ...(rod === undefined ? {} : { rod }),
  ...(main === undefined ? {} : { main }),
});

function* nuts(context: RuleContext, at?: Place): Iterable<Subject> {
  for (const place of castleNuts(context)) {
    if (at === undefined || placeMatches(pick(at), place)) yield { place, tag: "" };
  }
}

export const COTTER: Rule = {
  id: "cotter",
  title: "A cotter in every castle nut",
  subjects: (key, context) => {
    if (key.kind === "reading" && key.name === "fastener_torque") {
      return fastenerAt(key.place, context.spec)?.castle === true ? [{ place: nutOf(key.place), tag: "" }] : [];
    }
    if ((key.kind === "note" || key.kind === "photo") && key.name === "cotter") {
      const { cylinder, ...place } = key.place;
      return nuts(context, cylinder === undefined ? place : { ...place, rod: cylinder });
    }
    return key.kind === "step" || key.kind === "handed_over" ? nuts(context) : [];
  },
  check: ({ place }, context) => {
    const torque = torqueAt(context, place);
    if (torque === undefined) return undefined;
    const fitted = fittedAt(context, place);
    const base = { rule: "cotter", place, value: null, limit: null, unit: null, step: "final_torque" };
    const evidence = [...torque.evidence, ...(fitted === undefined ? [] : [fitted.id])];
    if (fitted !== undefined && fitted.order > torque.order) {
      return { ...base, verdict: "pass", why: `Cotter${at(place)} is in, fitted after the last tightening.`, evidence };
    }
    if (!isDue(context)) return undefined;
    return {
      ...base,
      verdict: "fail",
      why:
        fitted === undefined
          ? `No cotter${at(place)} is on record, and the nuts are about to be covered.`
          : `The nut${at(place)} was tightened again after its cotter went in.`,
      source: "common practice, no source",
      remedy: "Fit a new cotter, bend its legs, and say so or take the picture. A used cotter is scrap.",
      evidence,
    };
  },
};
