// Photo proof that a step needs: one picture for each place of the proof, asked for once the step has been opened.

import type { LoggedPhoto } from "../build/build.ts";
import { type Place, SIDES } from "../places/places.ts";
import { crankpinsOf } from "../spec/engine.ts";
import type { Proof, Spec } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import { upTo } from "./figures/pick.ts";
import type { Rule, Subject } from "./rule.ts";
import { at, sourceText } from "./text.ts";

type Places = (spec: Spec) => readonly Place[];

const nuts = (count: number): readonly ("a" | "b" | number)[] => (count === 2 ? SIDES : upTo(count));

const PLACES: Readonly<Record<Proof["each"], Places>> = {
  engine: () => [{}],
  cylinder: ({ engine }) => upTo(engine.cylinders).map((cylinder) => ({ cylinder })),
  rod: ({ engine }) => upTo(engine.cylinders).map((rod) => ({ rod })),
  main: ({ engine }) => upTo(engine.mains).map((main) => ({ main })),
  crankpin: ({ engine }) => crankpinsOf(engine).map(([rod = 1]) => ({ rod })),
  rod_nut: ({ engine }) =>
    upTo(engine.cylinders).flatMap((rod) => nuts(engine.rodNuts).map((nut) => ({ fastener: "rod" as const, rod, nut }))),
  main_nut: ({ engine }) =>
    upTo(engine.mains).flatMap((main) => nuts(engine.mainNuts).map((nut) => ({ fastener: "main" as const, main, nut }))),
};

/** The places of an engine that a proof is wanted of. */
export const proofPlaces = (proof: Proof, spec: Spec): readonly Place[] => PLACES[proof.each](spec);

/** Whether a picture shows a place: every numbered slot agrees; a rod's number is its cylinder's. */
export function shows(photo: Place, wanted: Place): boolean {
  const same = (slot: "main" | "nut") => wanted[slot] === undefined || photo[slot] === wanted[slot];
  const number = wanted.cylinder ?? wanted.rod;
  return same("main") && same("nut") && (number === undefined || (photo.cylinder ?? photo.rod) === number);
}

function candidates(proof: Proof, context: RuleContext): LoggedPhoto[] {
  const named = context.photos(proof.id);
  // A picture filed under a step without naming its proof can only be meant for the step's one proof.
  const single = context.spec.proofs.filter((other) => other.step === proof.step).length === 1;
  return single ? [...named, ...context.photos(`step:${proof.step}`)] : named;
}

function* subjectsOf(wanted: (proof: Proof) => boolean, spec: Spec, place?: Place): Iterable<Subject> {
  for (const proof of spec.proofs) {
    if (!wanted(proof)) continue;
    for (const where of PLACES[proof.each](spec)) {
      if (place === undefined || shows(place, where)) yield { place: where, tag: proof.id };
    }
  }
}

export const MISSING_PHOTOS: Rule = {
  id: "missing_photo",
  title: "Every photo a step needs has been taken",
  subjects: (key, { spec }) => {
    if (key.kind === "photo") return subjectsOf((proof) => key.name === "" || proof.id === key.name, spec, key.place);
    if (key.kind === "handed_over" || (key.kind === "step" && key.name === "hand_over")) return subjectsOf(() => true, spec);
    return key.kind === "step" ? subjectsOf((proof) => proof.step === key.name, spec) : [];
  },
  check: ({ place, tag }, context) => {
    const proof = context.spec.proofs.find((candidate) => candidate.id === tag);
    const { build } = context;
    const record = proof === undefined ? undefined : build.steps.get(proof.step);
    const over = build.steps.has("hand_over") || build.handedOver !== undefined;
    if (proof === undefined || (record === undefined && !over)) return undefined;
    const photos = candidates(proof, context).filter((photo) => shows(photo.place, place));
    const base = {
      rule: "missing_photo",
      place,
      value: photos.length,
      limit: "1 photo",
      unit: null,
      source: sourceText(proof.source),
      step: proof.step,
      evidence: photos.map((photo) => photo.id),
    };
    const what = `Photo${at(place)}: ${proof.title}`;
    if (photos.length > 0) return { ...base, verdict: "pass", why: `${what}: taken.` };
    const closed = over || record?.closed !== undefined;
    return {
      ...base,
      verdict: closed ? "fail" : "unknown",
      why: `${what}: ${closed ? "the step was closed without it" : "still to take"}.`,
      remedy: closed
        ? "Open it up and take the picture now, or write down why it cannot be taken."
        : "Take it before the step is closed.",
    };
  },
};
