// When a gauge was last calibrated, and whether a wrench was read where it is calibrated at all.
import type { LoggedReading } from "../build/build.ts";
import { convertMeasure, dimensionOf, unitLabel } from "../compute/units.ts";
import type { Place } from "../places/places.ts";
import { isQuantityId } from "../quantities/registry.ts";
import type { RuleContext } from "./context.ts";
import type { Rule } from "./rule.ts";
import { at, figure } from "./text.ts";

/** Months a calibration holds: torque wrenches by FAA AC 43.13-1B, 7-40 a (once a year); the same for others is common practice. */
const MONTHS = 12;
const WRENCH = "FAA AC 43.13-1B, 7-40 a: a torque wrench is calibrated at least once a year, or once dropped or abused";
const OTHERS = "common practice, no source: once a year";

const lastDay = (from: string): string => {
  const day = new Date(`${from}T00:00:00Z`);
  day.setUTCMonth(day.getUTCMonth() + MONTHS);
  return day.toISOString().slice(0, 10);
};

export const CALIBRATION: Rule = {
  id: "calibration",
  title: "Gauges calibrated within the year",
  subjects: (key) =>
    key.kind === "instrument" ? [{ place: { part: key.name.slice(0, 40) } satisfies Place, tag: key.name }] : [],
  check: ({ place, tag }, { build }) => {
    const instrument = build.instruments.get(tag);
    if (instrument === undefined) return undefined;
    const { calibrated, certificate, kind, unit, kept, zero } = instrument;
    const wrench = dimensionOf(unit) === "torque";
    const name = `"${tag}" (${kind})`;
    const base = {
      rule: "calibration",
      place,
      value: null,
      limit: `${MONTHS} months`,
      unit: null,
      source: wrench ? WRENCH : OTHERS,
    };
    const evidence = zero === undefined ? [] : [zero.event];
    if (calibrated === undefined) {
      // Of a wrench nothing else tells whether it pulls what it says; other gauges have their standards in the shop.
      if (!wrench) return undefined;
      return {
        ...base,
        verdict: "unknown",
        why: `${name} has no day of calibration on record.`,
        remedy: "Put day and certificate of its last calibration on the register, or have it calibrated.",
        evidence,
      };
    }
    const used = (zero !== undefined && zero.at > kept ? zero.at : kept).slice(0, 10);
    const until = lastDay(calibrated);
    const fine = used <= until;
    const paper = certificate === undefined ? "no certificate named" : `certificate ${certificate}`;
    return {
      ...base,
      verdict: fine ? "pass" : "warn",
      why: `${name} was calibrated on ${calibrated} (${paper}), good until ${until}; last checked on ${used}${fine ? "" : ": past it"}.`,
      ...(fine ? {} : { remedy: "Have it calibrated, and see whether what was read with it since has to be read again." }),
      evidence,
    };
  },
};

/** Share of a wrench's largest figure from which on it is calibrated. */
const LEAST_SHARE = 0.2;

const rangeOf = (logged: LoggedReading, context: RuleContext) => {
  const instrument = context.instrumentOf(logged);
  return instrument?.range === undefined || dimensionOf(instrument.unit) !== "torque"
    ? undefined
    : { ...instrument, range: instrument.range };
};

export const WRENCH_RANGE: Rule = {
  id: "wrench_range",
  title: "Torque read where the wrench is calibrated",
  subjects: (key) =>
    key.kind === "reading" && (key.name === "fastener_torque" || key.name === "turning_torque")
      ? [{ place: key.place, tag: key.name }]
      : [],
  check: ({ place, tag }, context) => {
    const logged = isQuantityId(tag) ? context.latest(tag, place) : undefined;
    const wrench = logged === undefined ? undefined : rangeOf(logged, context);
    if (logged === undefined || wrench === undefined) return undefined;
    const value = convertMeasure(logged.reading.value, logged.reading.unit, wrench.unit);
    const most = Number(wrench.range);
    const least = LEAST_SHARE * most;
    if (value >= least && value <= most) return undefined;
    return {
      rule: "wrench_range",
      verdict: "warn",
      place,
      value,
      limit: `${figure(least, wrench.unit)} to ${figure(most, wrench.unit)}`,
      unit: wrench.unit,
      why: `${figure(value, wrench.unit)}${at(place)} was read with "${wrench.id}", which reaches to ${most} ${unitLabel(wrench.unit)}: ${value > most ? "it is beyond its range" : "below a fifth of it nothing is calibrated"}.`,
      source: "ISO 6789-1:2017: measuring range from 20 % of the largest figure, from memory",
      remedy: `Read it with a wrench of ${value > most ? "larger" : "smaller"} range.`,
      evidence: [...logged.evidence],
    };
  },
};
