// Piston to head, compression ratio, chambers, compression.

import { gasketFor } from "../../compute/deck.ts";
import { inch, minus, ratio } from "../../compute/measure.ts";
import { chamberForRatio } from "../../compute/ratio.ts";
import { suits } from "../../spec/engine.ts";
import type { RuleContext } from "../context.ts";
import { chamberOf } from "../figures/head.ts";
import { sheetFigure, valueIn, within } from "../figures/pick.ts";
import { number, figure as text } from "../text.ts";
import type { Remedy, RemedyRow } from "./types.ts";

const moreRoom: Remedy = ({ value, accept, place, context }) => {
  if (accept.low === undefined) return undefined;
  const short = minus(accept.low, value);
  const p = context.latest("deck_protrusion", place);
  if (p === undefined)
    return `Find ${text(short, "in")} more room over the piston; look for a wrong piston or rod before a thicker gasket.`;
  const protrusion = inch(valueIn(p, "in"));
  const recess = inch(sheetFigure(context.spec, "head_recess") ?? 0);
  const gasket = gasketFor(inch(accept.low), recess, protrusion);
  return `Bring the protrusion down to ${text(minus(protrusion, short), "in")} or less: look for a wrong pin height first. A gasket alone would need ${text(gasket, "in")}.`;
};

const lessRoom: Remedy = ({ value, accept }) =>
  accept.high === undefined
    ? undefined
    : `It is ${text(minus(value, accept.high), "in")} over: check gasket thickness, pin height and rod length before facing anything.`;

const chamberTo =
  (side: "low" | "high"): Remedy =>
  ({ accept, place, context }) => {
    const wanted = accept[side];
    const known = place.cylinder === undefined ? undefined : chamberOf(context, place.cylinder);
    if (wanted === undefined || known === undefined) return undefined;
    const chamber = chamberForRatio(known.chamber, ratio(wanted));
    const change = minus(chamber, known.chamber.chamber);
    const how =
      change > 0 ? `relieve the chamber by ${number(change, "cc")} cc` : `the chamber is ${number(-change, "cc")} cc too large`;
    return `For ${number(wanted, "ratio")} the chamber must be ${number(chamber, "cc")} cc: ${how}. Check the protrusion first.`;
  };

const evenChambers: Remedy = ({ value, accept, context }) => {
  const poured = within(context, "chamber_volume", {}).sort((a, b) => valueIn(a, "cc") - valueIn(b, "cc"));
  const smallest = poured[0];
  if (accept.high === undefined || smallest === undefined) return undefined;
  return `Relieve chamber ${smallest.reading.place.cylinder ?? "?"} by ${number(minus(value, accept.high), "cc")} cc or more, then pour it again.`;
};

const wetTest: Remedy = ({ context }) => {
  const lowest = within(context, "compression_pressure", {}).sort((a, b) => valueIn(a, "psi") - valueIn(b, "psi"))[0];
  const which = lowest?.reading.place.cylinder;
  return `Oil cylinder ${which ?? "?"} and test again: better means rings, no better means ${seal(context)} or gasket.`;
};
/** What else than rings holds compression. */
const seal = ({ spec }: RuleContext): string => (suits(spec.engine, ["valves"]) ? "valves" : "crankcase seals");

const enlarge: Remedy = ({ value, accept, context }) =>
  accept.low === undefined
    ? undefined
    : `Relieve the chamber by ${number(minus(accept.low, value), "cc")} cc or more, smooth${suits(context.spec.engine, ["valves"]) ? ", away from the seats" : ""}, then pour it again.`;

const tooLarge: Remedy = ({ value, accept, context }) =>
  accept.high === undefined
    ? undefined
    : `It holds ${number(minus(value, accept.high), "cc")} cc too much: pour it again with the plate greased; then look at ${suits(context.spec.engine, ["valves"]) ? "sunk valves and " : ""}the head's thickness.`;

const findHeight: Remedy = ({ context, place }) => {
  const room = context.limitsOn("piston_to_head").length > 0 ? " Piston to head decides whether it can stay." : "";
  return `Check pin height of the piston, rod length and deck of cylinder ${place.cylinder ?? "?"} before anything is cut.${room}`;
};

const lowCompression: Remedy = ({ value, accept, context }) =>
  accept.low !== undefined && value < accept.low
    ? `${suits(context.spec.engine, ["spark"]) ? "Throttle open, plugs out" : "Injectors out"}, crank again; then with oil in the cylinder: better means rings, no better means ${seal(context)} or gasket.`
    : "Higher than the ratio gives: look for carbon, oil in the cylinder, or a wrong gasket or piston.";

const findLeak: Remedy = () =>
  "Listen where it goes: exhaust valve in the pipe, intake in the carburettor, rings at the oil filler, gasket as bubbles in the water. Lock the crank at dead centre before air goes in: it turns by itself.";

const jacketLeak: Remedy = () =>
  "Soap the outside and look where it bubbles, plugs and hoses first; a jacket that leaks is mended and tested again before anything is built on it. Water tests are safer than air.";

const coolRun: Remedy = () =>
  "Take the load off, let it idle until it cools, and find out why before the next stage: water, fan, spark and mixture. Do not open a hot radiator, and do not pour cold water in.";

export const HEAD_REMEDIES: Readonly<Record<string, RemedyRow>> = {
  piston_to_head: { low: moreRoom, high: lessRoom },
  compression_ratio: { low: chamberTo("low"), high: chamberTo("high") },
  leak_down: { high: findLeak },
  jacket_drop: { high: jacketLeak },
  run_in_temperature: { high: coolRun },
  chamber_spread: { high: evenChambers },
  compression_spread: { high: wetTest },
  chamber_volume: { low: enlarge, high: tooLarge },
  deck_protrusion: { low: findHeight, high: findHeight },
  compression_pressure: { low: lowCompression, high: lowCompression },
};
