// The shop's instruments: zeroed within half a step, and fine enough for the limits of what they measure.
import type { Instrument } from "../build/build.ts";
import { capability } from "../compute/conformance.ts";
import { convertDifference, dimensionOf, unitLabel } from "../compute/units.ts";
import type { Place } from "../places/places.ts";
import { isQuantityId } from "../quantities/registry.ts";
import type { Limit } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import { FIGURES, figuresFrom } from "./figures/figures.ts";
import { readyLimit } from "./limit-bounds.ts";
import type { Rule } from "./rule.ts";
import { figure, sourceText } from "./text.ts";

/** A place holds forty letters of a part's name. */
const placeOf = (id: string): Place => ({ part: id.slice(0, 40) });

export const INSTRUMENT_ZERO: Rule = {
  id: "instrument_zero",
  title: "Instruments read zero on their standard",
  subjects: (key) => (key.kind === "instrument" ? [{ place: placeOf(key.name), tag: key.name }] : []),
  check: ({ place, tag }, { build }) => {
    const instrument = build.instruments.get(tag);
    if (instrument === undefined) return undefined;
    const { zero, kind, unit } = instrument;
    const resolution = Number(instrument.resolution);
    const base = { rule: "instrument_zero", place, source: "zero within half a division: common practice, no source" };
    if (zero === undefined) {
      return {
        ...base,
        verdict: "unknown",
        value: null,
        limit: `${resolution / 2} ${unitLabel(unit)} at most`,
        unit,
        why: `"${tag}" (${kind}) has no zero check on record.`,
        remedy: "Wipe it, check it on its standard and say the deviation.",
        evidence: [],
      };
    }
    if (dimensionOf(zero.unit) !== dimensionOf(unit)) {
      return {
        ...base,
        verdict: "unknown",
        value: null,
        limit: `${resolution / 2} ${unitLabel(unit)} at most`,
        unit,
        why: `"${tag}" (${kind}) reads in ${unitLabel(unit)}, its zero check was said in ${unitLabel(zero.unit)}.`,
        remedy: `Check it again and say the deviation in ${unitLabel(unit)}.`,
        evidence: [zero.event],
      };
    }
    const deviation = Math.abs(convertDifference(Number(zero.deviation), zero.unit, unit));
    const fine = deviation <= resolution / 2;
    return {
      ...base,
      verdict: fine ? "pass" : "warn",
      value: deviation,
      limit: `${resolution / 2} ${unitLabel(unit)} at most`,
      unit,
      why: `"${tag}" (${kind}) was off by ${figure(deviation, unit)} at its last zero check; half its step is ${figure(resolution / 2, unit)}.`,
      ...(fine ? {} : { remedy: "Set its zero, then take again what was read with it since the check before." }),
      evidence: [zero.event],
    };
  },
};

function* limitsFor(instrument: Instrument, context: RuleContext): Iterable<Limit> {
  for (const quantity of instrument.quantities) {
    if (!isQuantityId(quantity)) continue;
    for (const row of figuresFrom(quantity)) {
      for (const limit of context.limitsOn(row.id)) {
        if (limit.accept.low !== undefined && limit.accept.high !== undefined) yield limit;
      }
    }
  }
}

export const INSTRUMENT_STEP: Rule = {
  id: "instrument_step",
  title: "Instruments fine enough for their limits",
  subjects: (key, context) => {
    const instrument = key.kind === "instrument" ? context.build.instruments.get(key.name) : undefined;
    if (instrument === undefined) return [];
    return [...limitsFor(instrument, context)].map((limit) => ({ place: placeOf(key.name), tag: `${key.name}|${limit.id}` }));
  },
  check: ({ place, tag }, context) => {
    const bar = tag.lastIndexOf("|");
    const instrument = context.build.instruments.get(tag.slice(0, bar));
    const limit = context.spec.limits.find((candidate) => candidate.id === tag.slice(bar + 1));
    const measured = limit === undefined ? undefined : FIGURES.get(limit.on);
    if (instrument === undefined || limit === undefined || measured === undefined) return undefined;
    if (dimensionOf(instrument.unit) !== dimensionOf(measured.unit)) return undefined;
    // A limit by the inch of bore is tried on cylinder 1: the tolerance hardly differs between bores.
    const ready = readyLimit(limit, measured, { cylinder: 1 }, context);
    if (ready?.accept.low === undefined || ready.accept.high === undefined) return undefined;
    // An exact figure leaves no tolerance to be coarse for.
    if (ready.accept.high <= ready.accept.low) return undefined;
    const resolution = convertDifference(Number(instrument.resolution), instrument.unit, measured.unit);
    const { share, verdict } = capability(resolution, { low: ready.accept.low, high: ready.accept.high });
    if (verdict === "fine") return undefined;
    return {
      rule: "instrument_step",
      verdict: "warn",
      place,
      value: share,
      limit: "a tenth at most",
      unit: null,
      why: `"${instrument.id}" (${instrument.kind}): a step of ${figure(resolution, measured.unit)} is ${Math.round(share * 100)} % of the tolerance of ${measured.label.toLowerCase()} (${ready.text}): ${verdict === "coarse" ? "coarser than a tenth" : "too coarse to judge it"}.`,
      source: `rule of ten: common practice, no source; limit from ${sourceText(limit.source)}`,
      remedy: "Use a finer instrument for it, or take several readings and their mean.",
      evidence: [],
    };
  },
};
