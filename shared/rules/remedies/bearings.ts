// Bearings, shims, end float, journals, rods.

import { shimChange } from "../../compute/bearing.ts";
import { inch, minus } from "../../compute/measure.ts";
import { convertMeasure } from "../../compute/units.ts";
import { placeLabel } from "../../places/places.ts";
import { ROLLING } from "../../spec/engine.ts";
import type { RuleContext } from "../context.ts";
import { decideGrind } from "../decisions.ts";
import { sheetFigure, valueIn, within } from "../figures/pick.ts";
import { lengthAsSaid, lengthLabel, number, sizeStep, figure as text } from "../text.ts";
import { type Advice, fromMiddle, type Remedy, type RemedyRow } from "./types.ts";

export const NO_REWORK = "a shell is never shimmed, scraped or filed";

const tightShell: Remedy = () =>
  `Look for the wrong undersize of shell, dirt behind it, or a cap turned round, then measure the housing bore torqued without shells and the journal: ${NO_REWORK}.`;

const looseShell: Remedy = ({ place, context }) => {
  const kind = place.main === undefined ? "crankpins" : "mains";
  const decision = context.once(`grind ${kind}`, () => decideGrind(context.build, kind, context));
  const ground =
    decision?.step === undefined
      ? ""
      : ` If the journal is worn: all ${kind} ${sizeStep(decision.step)} under, with shells for it.`;
  return `Measure the journal, and fit a new pair of shells of its size: ${NO_REWORK}.${ground}`;
};

const otherRollers: Remedy = ({ place }) =>
  `Fit rollers, or a ${place.main === undefined ? "big end" : "bearing"}, of another size to what journal and race measure: a roller bearing takes no shim.`;

/** Thinnest lamination when the sheet names none (common practice: .001, .002 and .003 in). */
const THINNEST = 0.001;

const thinnest = (context: RuleContext) =>
  inch(sheetFigure(context.spec, "shim_spare") ?? sheetFigure(context.spec, "shim_lamination") ?? THINNEST);

/** The same laminations out of, or into, both sides. */
const shimsOf: Remedy = ({ value, accept, context }) => {
  if (accept.low === undefined || accept.high === undefined) return undefined;
  const change = shimChange(inch(value), inch(accept.low), inch(accept.high), thinnest(context));
  if (change === undefined || change.each === 0) return undefined;
  const amount = text(Math.abs(change.each), "in");
  const verb = change.each > 0 ? `Take ${amount} of shim from` : `Add ${amount} of shim to`;
  return `${verb} each side, the same on both, then gauge again: it should come to ${text(change.clearance, "in")}.`;
};

const scrapeTaper: Remedy = ({ value }) =>
  `Scrape the tight end by ${text(value, "in")}, blued to its journal; shims take up both ends alike. First see whether the journal itself tapers.`;
const shellTaper: Remedy = () =>
  `Measure journal and torqued housing at both ends, look for dirt behind a shell and for a bent rod: ${NO_REWORK}.`;
/** Crush and spread are the shell's own: a wrong one is another shell, never a file. */
const otherShells: Remedy = ({ place }) =>
  `See that it is the right pair for this housing, back and parting faces clean, the ${place.main === undefined ? "rod's" : "main's"} housing bore within its size torqued; else fit another pair: ${NO_REWORK}, and a cap is not filed.`;

/** A roller's or ball's races are fitted, not worked: what tapers is what they sit on. */
const raceTaper: Remedy = () =>
  "Measure journal or crankpin and housing at both ends: a race takes the shape of what it is pressed on. A bent rod shows here too.";
const boreTaper: Remedy = () =>
  "Measure the journal at both ends; if it is true, ream or bore the bush in line again, or renew it.";

const tightBush: Remedy = ({ value, accept }) =>
  accept.low === undefined
    ? undefined
    : `Ream or bore the bush in line by ${text(minus(accept.low, value), "in")} or a little more.`;
const looseBush: Remedy = () =>
  "Renew the bush and bore it in line for the journal as it measures; true the journal first if it is worn.";

const resizeHousing: Remedy = () =>
  "Clean faces and dowels, see that caps are on their own rods and mains the right way round, pull them up and measure again; a housing that stays oval is resized by a shop with the machine for it, never by a file on the cap.";

const rollers: Advice = [{ at: ROLLING, say: otherRollers }];
const shells: Advice = [{ at: ["shell"], say: otherShells }];
const taper: Advice = [
  { at: ["poured"], say: scrapeTaper },
  { at: ["shell"], say: shellTaper },
  { at: ROLLING, say: raceTaper },
  { at: ["bush"], say: boreTaper },
];
const tight: Advice = [
  { at: ["poured"], say: shimsOf },
  { at: ["shell"], say: tightShell },
  { at: ROLLING, say: otherRollers },
  { at: ["bush"], say: tightBush },
];
const loose: Advice = [
  { at: ["poured"], say: shimsOf },
  { at: ["shell"], say: looseShell },
  { at: ROLLING, say: otherRollers },
  { at: ["bush"], say: looseBush },
];

const thrustShim: Remedy = (trouble) => {
  const off = fromMiddle(trouble);
  if (off === undefined) return undefined;
  const { middle, above } = off;
  const [less, more] = above > 0 ? ["take it out", "put it in"] : ["put it in", "take it out"];
  return `Change the thrust by ${text(Math.abs(above), "in")} of thrust shim for ${text(middle, "in")}, the middle of the range: ${less} where the shim holds the thrust faces apart, ${more} where it fills the gap between them.`;
};

/** Thrust washers, or flanges of the shells: thicker ones fill more of the gap. */
const thrustWashers: Remedy = (trouble) => {
  const off = fromMiddle(trouble);
  if (off === undefined) return undefined;
  const { middle, above } = off;
  return `Fit thrust washers, or flanged shells, ${text(Math.abs(above), "in")} ${above > 0 ? "thicker" : "thinner"} in all, for ${text(middle, "in")}, the middle of the range.`;
};

/** Rolling bearings are located by spacers at their races. */
const thrustSpacers: Remedy = (trouble) => {
  const off = fromMiddle(trouble);
  if (off === undefined) return undefined;
  const { middle, above } = off;
  return `Change the spacer that locates the bearing by ${text(Math.abs(above), "in")} for ${text(middle, "in")}, the middle of the range, as the maker has it; look for a race that has moved first.`;
};

const thrust: Advice = [
  { at: ["poured"], say: thrustShim },
  { at: ["shell", "bush"], say: thrustWashers },
  { at: ROLLING, say: thrustSpacers },
];

/** One undersize for the whole set of journals. */
const regrind: Remedy = ({ place, context }) => {
  const kind = place.main === undefined ? "crankpins" : "mains";
  const decision = context.once(`grind ${kind}`, () => decideGrind(context.build, kind, context));
  if (decision === undefined) return undefined;
  const smallest = text(decision.worst, "in");
  if (decision.step === undefined || decision.size === undefined) {
    return `Build up or renew the crank: the smallest, ${smallest}, is past the last undersize of the sheet.`;
  }
  return `Grind all ${kind} ${sizeStep(decision.step)} under (${number(decision.size, "in")}): the smallest is ${smallest}. Before any bearing is bored.`;
};

/** Rollers run on the pin or journal itself, or their races are pressed on it: it is no bearing to be ground to the next shell. */
const rollerJournal: Remedy = ({ place }) =>
  place.main === undefined
    ? "Renew the crankpin with its rollers and rod, and true the crank after, where the fixtures for it are: a roller's track is not ground to the next undersize unless rollers for it are to be had."
    : "Look whether a race has turned on the journal; build it up and grind it back to the size that its bearing wants, or renew it.";
const worn: Advice = [{ at: ROLLING, say: rollerJournal }, { say: regrind }];

const straighten: Remedy = ({ accept, place, context, figure }) => {
  const quantity = figure.id === "rod_bend_per_inch" ? "rod_bend" : "rod_twist";
  const over = context.latest(quantity, place)?.reading.over;
  if (over === undefined || accept.high === undefined) return undefined;
  const length = convertMeasure(over.value, over.unit, "in");
  return `Straighten the rod to ${text(accept.high * length, "in")} or less over ${lengthAsSaid(over)} ${lengthLabel()}, and check bend and twist again.`;
};

/** Forged steel can be straightened cold; a casting breaks (common practice, no source). */
const straightenCrank: Remedy = ({ accept, context }) => {
  if (accept.high === undefined) return undefined;
  if (!/steel|forged/.test(context.spec.materials.crank))
    return "A cast crank is not straightened, it breaks: have it ground true where the undersize allows it, or renew it.";
  return `If it is forged, have the crank straightened to a run-out of ${text(2 * accept.high, "in")} or less; crack-check it again after. A cast one is never straightened.`;
};

const trueBuiltUp: Remedy = ({ accept }) =>
  accept.high === undefined
    ? undefined
    : `Have the built-up crank trued at its webs, between centres, to a run-out of ${text(2 * accept.high, "in")} or less; by somebody who has the fixture.`;

const faceRod: Remedy = ({ value, accept }) =>
  accept.low === undefined
    ? undefined
    : `Face ${text(minus(accept.low, value), "in")} off the rod's cheeks, the same on both, and blend the edge clear of the fillet.`;

const sideBabbitt: Remedy = ({ value, accept }) =>
  accept.high === undefined
    ? undefined
    : `It is ${text(minus(value, accept.high), "in")} over: the rod's cheeks want babbitt at the next pour; leave it open only with a note and a name.`;

const newSides: Remedy = ({ value, accept }) =>
  accept.high === undefined
    ? undefined
    : `It is ${text(minus(value, accept.high), "in")} over: renew the rod or the crank's cheeks; leave it open only with a note and a name.`;

const findDrag: Remedy = ({ value, accept, figure }) =>
  accept.high === undefined
    ? undefined
    : `It drags ${text(minus(value, accept.high), figure.unit)} too much: turn it with the pistons off, then with each one on alone; the one that brings it is the tight one.`;
const findTightCap: Remedy = ({ value, accept, figure }) =>
  accept.high === undefined
    ? undefined
    : `It drags ${text(minus(value, accept.high), figure.unit)} too much: slack one cap at a time and turn again; the one that frees it is the tight one.`;

const evenMasses: Remedy = ({ value, accept, place, context }) => {
  const weighed = within(context, "mass", place).sort((a, b) => valueIn(b, "g") - valueIn(a, "g"));
  const heaviest = weighed[0]?.reading.place;
  if (accept.high === undefined || heaviest === undefined) return undefined;
  return `Take ${text(minus(value, accept.high), "g")} or more off the pads of ${placeLabel(heaviest)}, the heaviest, never off a stressed web.`;
};

const longRod: Remedy = ({ value, accept }) =>
  accept.high !== undefined && value > accept.high
    ? "A rod grows long only by a wrong bush or a wrong rod: check the fixture on its master first, then the bush."
    : "A short rod has been bent and straightened, or is another engine's: crack-check it and compare its number.";

const scrapCrack: Remedy = () =>
  "Do not fit the part. A crack in rod, bolt, cap or crank is scrap; block and head go to somebody licensed to judge them.";

const reface: Remedy = ({ accept, place }) =>
  accept.high === undefined
    ? undefined
    : `Have the ${place.part ?? "face"} trued to ${text(accept.high, "in")} or less, then measure recess, protrusion and chambers again.`;

export const BEARING_REMEDIES: Readonly<Record<string, RemedyRow>> = {
  main_clearance: { low: tight, high: loose },
  rod_clearance: { low: tight, high: loose },
  bearing_clearance: { low: tight, high: loose },
  bearing_crush: { low: shells, high: shells },
  bearing_spread: { low: shells },
  main_housing_out_of_round: { high: resizeHousing },
  rod_housing_out_of_round: { high: resizeHousing },
  roller_clearance: { low: rollers, high: rollers },
  bearing_taper: { high: taper },
  journal_wear: { high: worn },
  crank_end_float: { low: thrust, high: thrust },
  journal_out_of_round: { high: worn },
  journal_taper: { high: worn },
  rod_bend_per_inch: { high: straighten },
  rod_twist_per_inch: { high: straighten },
  crank_bend: { high: [{ needs: ["built_up_crank"], say: trueBuiltUp }, { say: straightenCrank }] },
  rod_side_clearance: { low: faceRod, high: [{ at: ["poured"], say: sideBabbitt }, { say: newSides }] },
  rod_length_dev: { low: longRod, high: longRod },
  turning_torque: { high: [{ needs: ["rod_caps"], say: findTightCap }, { say: findDrag }] },
  mass_spread: { high: evenMasses },
  crack_indication: { high: scrapCrack },
  flatness: { high: reface },
};
