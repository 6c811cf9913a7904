// The ear in its worker thread on synthesised speech (two voices of an open synthesiser), noise and silence.
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { shopNoise } from "../../../demo-data/shop-noise.ts";
import { fliteVoice } from "../../../demo-data/voices.ts";
import { seeded } from "../../../extractors/hearing/audio/noise.ts";
import { type Hearer, understand } from "../../../extractors/hearing/index.ts";
import { openHearer } from "../../../extractors/hearing/node/index.ts";
import { parse } from "../../../extractors/speech/index.ts";
import type { Context } from "../../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { afterBlows } from "./shop-sounds.ts";

let hearer: Hearer;
beforeAll(() => {
  hearer = openHearer();
});
afterAll(() => hearer.close());

const voice = fliteVoice("rms");
async function heardAs(text: string, context: Context) {
  const { pcm, rate } = await voice.say(text);
  return understand(await hearer.hear(pcm, rate, { spec: DEMO_SPEC, context }), context, DEMO_SPEC);
}

const NUT = { quantity: "fastener_torque", place: { fastener: "rod", rod: 2, nut: "a" } } as const;
const CLEARANCE = { quantity: "bearing_clearance", place: { main: 2 }, step: "main_bearings" } as const;

describe("with something open", () => {
  it.each([
    ["crank end float nine thou", CLEARANCE, { quantity: "crank_end_float", value: 0.009 }],
    [
      "ring gap number three top, sixteen thou",
      NUT,
      { quantity: "ring_end_gap", place: { cylinder: 3, ring: "top" }, value: 0.016 },
    ],
    ["oil ring gap one fifteen thou", NUT, { quantity: "ring_end_gap", place: { cylinder: 1, ring: "oil" }, value: 0.015 }],
    ["sixty two pounds compression on four", CLEARANCE, { quantity: "compression_pressure", place: { cylinder: 4 }, value: 62 }],
    ["two thou", CLEARANCE, { quantity: "bearing_clearance", place: { main: 2 }, value: 0.002 }],
    ["thirty eight foot pounds", NUT, { quantity: "fastener_torque", place: { rod: 2, nut: "a" }, value: 38 }],
  ] as const)("takes %j for what it is", async (text, context, reading) => {
    expect((await heardAs(text, context)).readings).toMatchObject([reading]);
  });
});

const TAKEN: Context = {
  step: "rings",
  quantity: "ring_end_gap",
  place: { cylinder: 2, ring: "top" },
  last: { quantity: "ring_end_gap", place: { cylinder: 2, ring: "top" }, value: 0.012, unit: "in" },
};

describe("commands said alone after a reading", () => {
  it.each([
    ["next", "next"],
    ["done", "done"],
    ["photo", "photo"],
    ["say again", "repeat"],
    ["strike that", "undo"],
    ["pause", "pause"],
  ])("does on %j what it says", async (text, command) => {
    const { commands, questions } = await heardAs(text, TAKEN);
    expect(commands).toMatchObject([{ command }]);
    expect(questions).toEqual([]);
  });
});

describe("the ear", () => {
  it.each([
    [
      "ring gap number two top, twelve thou",
      { step: "rings" },
      { quantity: "ring_end_gap", value: 0.012, place: { cylinder: 2, ring: "top" } },
    ],
    ["bore two top thrust, three eight eight four one", {}, { quantity: "bore_diameter", value: 3.8841 }],
    [
      "clearance on rod four, eighteen tenths",
      { step: "rod_fit" },
      { quantity: "bearing_clearance", value: 0.0018, place: { rod: 4 } },
    ],
  ] as const)("hears %j", async (text, context, reading) => {
    expect((await heardAs(text, context as Context)).readings).toMatchObject([reading]);
  });

  it("hears a command", async () => {
    expect((await heardAs("next cylinder", { step: "rings" })).commands).toMatchObject([{ command: "next" }]);
  });

  it.each(["pink", "hum", "impact"] as const)("makes nothing of %s noise", async (kind) => {
    const pcm = shopNoise(kind, 16_000 * 3, 16_000, 11).map((sample) => sample * 0.1);
    const parsed = understand(
      await hearer.hear(pcm, 16_000, { spec: DEMO_SPEC, context: { step: "rings" } }),
      { step: "rings" },
      DEMO_SPEC,
    );
    expect(parsed.readings.filter((reading) => reading.do === "accept")).toEqual([]);
    expect(parsed.commands).toEqual([]);
  });

  it.each([
    ["rms", "ring gap four oil, twenty thou", "ring gap four oil, twenty and a half"],
    ["awb", "main two clearance, two thou", "main two clearance, two tenths"],
  ])("hears %s as before after a blow, %j and not %j", async (by, text, other) => {
    const { pcm, rate } = await fliteVoice(by).say(text);
    const context: Context = { step: "rings" };
    const heard = await hearer.hear(afterBlows(pcm, rate, 2), rate, { spec: DEMO_SPEC, context });
    const [reading] = understand(heard, context, DEMO_SPEC).readings;
    const parsedAs = (said: string) => parse(said, context, DEMO_SPEC).readings[0]?.value;
    expect(reading?.value).toBe(parsedAs(text));
    expect(reading?.value).not.toBe(parsedAs(other));
  });

  it("makes nothing of a tool that strikes for half a second, which commands were heard in", async () => {
    for (const [beats, seed] of [
      [8, 1],
      [8, 5],
      [15, 2],
    ] as const) {
      const random = seeded(seed);
      let low = 0;
      const pcm = Float32Array.from({ length: 16_000 * 1.4 }, (_, index) => {
        const at = index / 16_000;
        const hiss = random() - 0.5;
        low = 0.5 * low + hiss;
        return (at > 0.4 && at < 0.9 ? 0.4 * low * Math.exp(-((at * beats) % 1) * 3) : 0) + hiss * 0.001;
      });
      const heard = await hearer.hear(pcm, 16_000, { spec: DEMO_SPEC, context: { step: "rings" } });
      expect(heard, `${beats} a second`).toMatchObject({ verdict: "nothing", text: "" });
    }
  });

  it("makes nothing of silence and of next to nothing", async () => {
    for (const samples of [16_000, 100, 1]) {
      const heard = await hearer.hear(new Float32Array(samples), 16_000, { spec: DEMO_SPEC, context: {} });
      expect(heard).toMatchObject({ text: "", verdict: "nothing" });
    }
  });
});
