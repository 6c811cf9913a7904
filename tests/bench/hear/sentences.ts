// What the hearing benchmark says: bench sentences with what they must come to, and talk that must come to nothing. Our own.

import { parse } from "../../../extractors/speech/index.ts";
import type { Context } from "../../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

export interface Sentence {
  readonly say: string;
  readonly context: Context;
}

const at = (say: string, context: Context = {}): Sentence => ({ say, context });
const RINGS: Context = { step: "rings" };
const BORE: Context = { quantity: "bore_diameter", place: { cylinder: 3, depth: "top", axis: "thrust" } };
const NUT: Context = { quantity: "fastener_torque", place: { fastener: "rod", rod: 2, nut: "a" } };

export const SENTENCES: readonly Sentence[] = [
  at("ring gap number two top, sixteen thou", RINGS),
  at("three eight seven nine four", BORE),
  at("forty-one foot pounds", NUT),
  at("crankpin four, one eight seven two nine"),
  at("bore two middle axial, three eight eight one seven", { step: "bores" }),
  at("ring gap four oil, eighteen thou", RINGS),
  at("main two clearance, nineteen tenths", { step: "main_bearings" }),
  at("rod one side, eleven thou", { step: "rod_fit" }),
  at("three nine oh five six", BORE),
  at("protrusion two, seventeen thou", { step: "deck" }),
  at("chamber four, two two five point five", { step: "deck" }),
  at("exhaust four lash, thirteen thou", { step: "valves" }),
  at("next cylinder", RINGS),
  at("end float seven thou", { step: "end_float" }),
  at("scratch that, make it fourteen thou", {
    ...RINGS,
    quantity: "ring_end_gap",
    last: { quantity: "ring_end_gap", place: { cylinder: 2, ring: "top" }, value: 0.012, unit: "in" },
  }),
  at("compression three, fifty-eight pounds"),
  at("bush fit four tenths over, number one", { step: "pins" }),
  at("main journal two, one nine nine seven six", { step: "crankshaft" }),
  at("half a thou out of round, crankpin two", { step: "crankshaft" }),
  at("intake three seat, a sixteenth", { step: "valves" }),
  at("thirty-six", NUT),
  at("rod three nut B, thirty-nine foot pounds"),
  at("piston two, three nine oh one four", { step: "pistons" }),
  at("shim main three B side, twelve thou", { step: "main_bearings" }),
];

/** What the sentence comes to when every word is heard right. */
export const wanted = ({ say, context }: Sentence) => parse(say, context, DEMO_SPEC);

export const CHAT: readonly string[] = [
  "did you see the game last night, it went to extra time again",
  "I told him the parts would be here by the end of the week",
  "that dog has been asleep under the bench since breakfast",
  "can you answer the phone, my hands are covered in oil",
  "the weather man says rain until the weekend and then some sun",
  "somebody left the gate open and the neighbour's goat came in",
  "we should order pizza, I am not cooking after a day like this",
  "put the kettle on would you, I have been at this for hours",
  "my brother bought a boat and now he never answers his messages",
  "where did I leave my glasses, they were right here a minute ago",
  "the radio is playing that song again, turn it off please",
  "we need more rags and a new broom before the inspection",
  "she said the train leaves at half past seven in the evening",
  "I think the customer wants it painted green like his tractor",
  "watch your fingers on that belt, it nearly had mine this morning",
];
