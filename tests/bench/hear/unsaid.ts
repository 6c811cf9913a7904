// What the hearing benchmark says that holds no figure: sentences that break off before it, and talk about the trade. Our own.

import type { Context, Parsed } from "../../../shared/events/reading.ts";
import { type Place, placeKey } from "../../../shared/places/places.ts";
import { type Sentence, wanted } from "./sentences.ts";

const RING: Context = { quantity: "ring_end_gap", place: { cylinder: 1, ring: "top" } };
const BORE: Context = { quantity: "bore_diameter", place: { cylinder: 3, depth: "top", axis: "thrust" } };
const CLEARANCE: Context = { quantity: "bearing_clearance", place: { rod: 2 } };
const NUT: Context = { quantity: "fastener_torque", place: { fastener: "rod", rod: 2, nut: "a" } };
const PIN: Context = { quantity: "pin_fit_bush", place: { cylinder: 1 } };

const said = (context: Context, ...texts: readonly string[]): Sentence[] => texts.map((say) => ({ say, context }));

/** Whoever looks at the instrument first says what is measured; the figure is the next sentence. */
export const BROKEN_OFF: readonly Sentence[] = [
  ...said(CLEARANCE, "rod three side", "main two clearance", "crankpin three", "end float", "main journal two"),
  ...said(RING, "exhaust three lash", "ring gap two top", "compression three", "chamber four"),
  ...said(BORE, "bore two top thrust", "piston two"),
  ...said(NUT, "rod two nut b"),
];

/** Talk in the words of the trade, numbers among them, of which nothing is measured. */
export const SHOP_TALK: readonly Sentence[] = [
  ...said(NUT, "give me the half inch socket", "another quarter turn should do it", "I need twelve more bolts"),
  ...said(NUT, "I dropped a nut under the bench", "tighten it some more", "two hundred miles on a tank"),
  ...said(NUT, "cotter pins come in a box of fifty", "ninety percent of the time", "eight foot of pipe"),
  ...said(CLEARANCE, "hand me number two grease", "rod two looks good to me", "turn the radio down a bit"),
  ...said(CLEARANCE, "twelve volts on the battery", "wipe the journal off first", "ten to one it leaks"),
  ...said(CLEARANCE, "the clearance looks fine there", "main street is closed again", "two and a half men"),
  ...said(RING, "three more to go then lunch", "file a little more off that end", "it is about ten past eleven"),
  ...said(RING, "the top one feels tight", "put it in the vise", "the gap is too small", "sixty minutes in an hour"),
  ...said(BORE, "we close at half past five", "he owes me forty dollars", "the bore is clean and dry"),
  ...said(BORE, "where is the two inch mic", "about thirty of those a day", "it was built in nineteen thirty six"),
  ...said(PIN, "that makes two of them", "one for the road", "seven of nine are done", "not tight and not loose"),
  ...said(PIN, "piston number one is on the shelf", "fit it and forget it", "over there by the door"),
];

/** How many sentences without a figure came to what. */
export class Unsaid {
  /** The place was taken up, or nothing was where nothing was meant, and no more. */
  right = 0;
  /** Something was asked, or waits for a yes. */
  asked = 0;
  nothing = 0;
  /** Readings that counted at once. */
  accepted = 0;

  add(sentence: Sentence, got: Parsed): void {
    const place = placeOf(got);
    if (got.readings.some((reading) => reading.do === "accept")) this.accepted += 1;
    else if (got.readings.length === 0 && placeKey(place) === placeKey(placeOf(wanted(sentence))) && !isUnsure(got))
      this.right += 1;
    else if (got.readings.length + got.questions.length > 0) this.asked += 1;
    else this.nothing += 1;
  }
}

const placeOf = ({ commands }: Parsed): Place => commands.find(({ command }) => command === "goto")?.place ?? {};
const isUnsure = ({ questions }: Parsed) => questions.some(({ code }) => code !== "need_number");
