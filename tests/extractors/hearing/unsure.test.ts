// What is said not to be a figure, or between two marks of the instrument, is not heard as a figure that sounds like it. The sentences
// are common practice, no source; the readings follow from what the words mean.
import { afterAll, describe, expect, it } from "vitest";
import { fliteVoice } from "../../../demo-data/voices.ts";
import { buildGrammar } from "../../../extractors/hearing/grammar/index.ts";
import { otherWays } from "../../../extractors/hearing/grammar/other-ways.ts";
import { understand } from "../../../extractors/hearing/index.ts";
import { openHearer } from "../../../extractors/hearing/node/index.ts";
import { parse } from "../../../extractors/speech/index.ts";
import type { Context } from "../../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

const RINGS: Context = { step: "rings" };
const MAINS: Context = { step: "main_bearings" };
const BORE: Context = { quantity: "bore_diameter", place: { cylinder: 3, depth: "top", axis: "thrust" } };
const NUT: Context = { quantity: "fastener_torque", place: { fastener: "rod", rod: 2, nut: "a" } };
const CRANK: Context = { step: "crankshaft" };

/** Sentences, where they are said, and the figure in inches or the question they come to. */
const UNSURE = [
  ["ring gap two top just under twelve thou", RINGS, "approximate"],
  ["ring gap two top about twelve thou", RINGS, "approximate"],
  ["ring gap two top nearly thirteen thou", RINGS, "approximate"],
  ["ring gap two top a good twelve thou", RINGS, "approximate"],
  ["ring gap two top roughly twelve thou", RINGS, "approximate"],
  ["ring gap two top a shade over twelve thou", RINGS, "approximate"],
  ["ring gap two top twelve and a bit", RINGS, "approximate"],
  ["ring gap two top less than twelve thou", RINGS, "approximate"],
  ["ring gap two top eleven and a half or twelve thou", RINGS, "range"],
  ["ring gap two top a tight twelve thou", RINGS, "impossible_sign"],
  ["ring gap two top not quite twelve thou", RINGS, "approximate"],
  ["ring gap two top twelve or thirteen thou", RINGS, "range"],
  ["ring gap two top between twelve and thirteen thou", RINGS, "range"],
  ["main two nineteen tenths", MAINS, "which_quantity"],
  ["two and a half thou on main two", MAINS, "which_quantity"],
  ["ring gap two top twelve thou or so", RINGS, "approximate"],
  ["ring gap two top twelve thou roughly", RINGS, "approximate"],
  ["about three eight seven nine four", BORE, "approximate"],
  ["just under three eight seven nine four", BORE, "approximate"],
  ["three eight seven nine or eight", BORE, "range"],
  ["three eight seven nine maybe", BORE, "approximate"],
  ["maybe forty foot pounds", NUT, "approximate"],
  ["good forty foot pounds", NUT, "approximate"],
  ["forty foot pounds or so", NUT, "approximate"],
  ["forty foot pounds at least", NUT, "approximate"],
  ["forty or forty two foot pounds", NUT, "range"],
  ["crankpin four about one eight seven two nine", CRANK, "approximate"],
] as const;
const SURE = [
  ["ring gap two top twelve and a quarter thou", RINGS, 0.01225],
  ["ring gap two top twelve and three quarters thou", RINGS, 0.01275],
  ["ring gap two top twelve point three thou", RINGS, 0.0123],
  ["ring gap two top twelve point three", RINGS, 0.0123],
  ["ring gap two top is twelve thou", RINGS, 0.012],
  ["ring gap two top was twelve thou", RINGS, 0.012],
  ["ring gap two top twelve and a half thou", RINGS, 0.0125],
  ["ring gap two top twelve thou", RINGS, 0.012],
] as const;

describe("the grammar of an open step", () => {
  it.each([...UNSURE, ...SURE])("has %j", (text, context) => {
    const { start } = buildGrammar(DEMO_SPEC, context, "near");
    expect(otherWays(start, text.split(" ")).next().done).toBe(false);
  });

  it.each(UNSURE)("has %j, which comes to a question", (text, context, question) => {
    const { readings, questions } = parse(text, context, DEMO_SPEC);
    expect(readings.filter((reading) => reading.do === "accept")).toEqual([]);
    expect(questions.map(({ code }) => code)).toContain(question);
  });
});

describe("a voice the ear does not know", () => {
  const hearer = openHearer();
  afterAll(() => hearer.close());
  const voice = fliteVoice("rms");
  async function heardAs(text: string, context: Context) {
    const { pcm, rate } = await voice.say(text);
    const options = { spec: DEMO_SPEC, context };
    return understand(await hearer.hear(pcm, rate, options), context, DEMO_SPEC);
  }

  const SAID_OTHERWISE = [
    ["a good forty foot pounds", NUT],
    ["at least forty foot pounds", NUT],
    ["a good three eight seven nine four", BORE],
    ["not quite three eight seven nine four", BORE],
  ] as const;
  const ASKED: readonly (readonly [string, Context])[] = [
    ...UNSURE.map(([text, context]) => [text, context] as const),
    ...SAID_OTHERWISE,
  ];
  it.each(ASKED)("is asked about %j", async (text, context) => {
    const { readings } = await heardAs(text, context);
    expect(readings.filter((reading) => reading.do === "accept")).toEqual([]);
  });

  it.each(SURE)("says %j and no other figure is taken", async (text, context, value) => {
    const { readings } = await heardAs(text, context);
    const place = { cylinder: 2, ring: "top" };
    for (const reading of readings.filter(({ do: done }) => done === "accept")) expect(reading).toMatchObject({ value, place });
    for (const reading of readings) expect(reading.place).not.toHaveProperty("depth");
  });
});
