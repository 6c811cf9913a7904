// What a bolt carries at the torque it was pulled to, as a share of its proof load: near it, nothing is left for the engine's own load.
import { footPound, ratio } from "../compute/measure.ts";
import { boltStress, preload, toInchPounds } from "../compute/torque.ts";
import { convertMeasure } from "../compute/units.ts";
import type { Spec } from "../spec/spec.ts";
import { type Fastener, FOLLOW_MAKER, fastenerAt, threadOf, torqueIn } from "./fasteners.ts";
import type { Rule } from "./rule.ts";
import { at, figure } from "./text.ts";

/** Of the proof load, at most: three quarters is the usual aim for a joint that is taken apart again (Shigley, ch. 8), the rest is slack of ours. */
const MOST = 0.85;

/** Stress in lbf/in2 at a torque in the fastener's unit. */
export function stressAt(torque: number, fastener: Fastener, spec: Spec): number {
  const { diameter, area } = threadOf(fastener, spec);
  const pull = toInchPounds(footPound(convertMeasure(torque, fastener.unit, "ft_lbf")));
  return boltStress(preload(pull, diameter, ratio(Number(fastener.k))), area);
}

/** A proof strength of the sheet in lbf/in2. */
function proofOf(text: string): number {
  const [digits = "", unit] = text.split(/ ?(MPa)$/);
  return unit === undefined ? Number(digits) : convertMeasure(Number(digits), "MPa", "lbf_per_in2");
}

export const BOLT_STRESS: Rule = {
  id: "bolt_stress",
  title: "Bolts below their proof load",
  subjects: (key) => (key.kind === "reading" && key.name === "fastener_torque" ? [{ place: key.place, tag: "" }] : []),
  check: ({ place }, context) => {
    const fastener = fastenerAt(place, context.spec);
    const logged = context.latest("fastener_torque", place);
    if (fastener?.proof === undefined || logged === undefined) return undefined;
    const torque = torqueIn(logged, fastener.unit);
    const stress = stressAt(torque, fastener, context.spec);
    const proof = proofOf(fastener.proof);
    const share = stress / proof;
    const percent = (part: number) => `${Math.round(part * 100)} %`;
    const said = (lbf: number) =>
      fastener.pitch === undefined
        ? `${(lbf / 1000).toFixed(1)} ksi`
        : `${convertMeasure(lbf, "lbf_per_in2", "MPa").toFixed(0)} MPa`;
    const fine = share <= MOST;
    return {
      rule: "bolt_stress",
      verdict: fine ? "pass" : "warn",
      place,
      value: Number(share.toPrecision(6)),
      limit: `${percent(MOST)} of proof at most`,
      unit: null,
      why: `${figure(torque, fastener.unit)}${at(place)} pulls a ${fastener.thread} bolt to about ${said(stress)} (T = K F d with K ${fastener.k}, ${fastener.lubricant}; friction alone moves it by a quarter), ${percent(share)} of its proof strength of ${said(proof)}.`,
      source: "Shigley's Mechanical Engineering Design, 9th ed., eq. 8-27; share of proof: common practice, no source",
      ...(fine
        ? {}
        : {
            remedy: `Check thread, lubricant and grade on the sheet against the maker's manual before it is run; such a bolt has little left for the engine's load. ${FOLLOW_MAKER}`,
          }),
      evidence: [...logged.evidence],
    };
  },
};
