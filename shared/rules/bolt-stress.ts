// What a bolt carries at the torque it was pulled to, as a share of its proof load: near it, nothing is left for the engine's own load.
import { footPound, inch, ratio, threadsPerInch } from "../compute/measure.ts";
import { boltStress, preload, stressArea, toInchPounds } from "../compute/torque.ts";
import { convertMeasure } from "../compute/units.ts";
import { type Fastener, FOLLOW_MAKER, fastenerAt, torqueIn } from "./fasteners.ts";
import type { Rule } from "./rule.ts";
import { at, figure } from "./text.ts";

/** Of the proof load, at most: three quarters is the usual aim for a joint that is taken apart again (Shigley, ch. 8), the rest is slack of ours. */
const MOST = 0.85;

/** Stress in lbf/in2 at a torque; undefined where the sheet gives no proof strength to hold it against. */
export function stressAt(torque: number, fastener: Fastener): number {
  const diameter = inch(Number(fastener.majorDiameter));
  const pull = toInchPounds(footPound(convertMeasure(torque, fastener.unit, "ft_lbf")));
  const force = preload(pull, diameter, ratio(Number(fastener.k)));
  return boltStress(force, stressArea(diameter, threadsPerInch(fastener.threadsPerInch)));
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
    const stress = stressAt(torque, fastener);
    const share = stress / Number(fastener.proof);
    const percent = (part: number) => `${Math.round(part * 100)} %`;
    const ksi = (lbf: number) => `${(lbf / 1000).toFixed(1)} ksi`;
    const fine = share <= MOST;
    return {
      rule: "bolt_stress",
      verdict: fine ? "pass" : "warn",
      place,
      value: Number(share.toPrecision(6)),
      limit: `${percent(MOST)} of proof at most`,
      unit: null,
      why: `${figure(torque, fastener.unit)}${at(place)} pulls a ${fastener.thread} bolt to about ${ksi(stress)} (T = K F d with K ${fastener.k}, ${fastener.lubricant}; friction alone moves it by a quarter), ${percent(share)} of its proof strength of ${ksi(Number(fastener.proof))}.`,
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
