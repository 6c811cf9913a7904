// The ear in its worker thread on synthesised speech (two voices of an open synthesiser), noise and silence.
import createModule from "soundswallower";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { shopNoise } from "../../../demo-data/shop-noise.ts";
import { espeakVoice, fliteVoice } from "../../../demo-data/voices.ts";
import { seeded } from "../../../extractors/hearing/audio/noise.ts";
import { Ear } from "../../../extractors/hearing/ear.ts";
import type { EngineFactory } from "../../../extractors/hearing/engine/module.ts";
import { CALIBRATION_PHRASES, type Hearer, readSpeaker, understand } from "../../../extractors/hearing/index.ts";
import { openHearer, readModelFile } from "../../../extractors/hearing/node/index.ts";
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

describe("step by step", () => {
  const opened = Ear.open(createModule as unknown as EngineFactory, readModelFile);
  afterAll(async () => (await opened).close());

  it("gives a first sight before the rest, and comes to what it hears in one go", async () => {
    const ear = await opened;
    const { pcm, rate } = await voice.say("two thou");
    const options = { spec: DEMO_SPEC, context: CLEARANCE };
    const hearing = ear.hearing(pcm, rate, options);
    let step = hearing.next();
    while (step.value === undefined) step = hearing.next();
    expect(step).toMatchObject({ done: false, value: { text: "two thou", verdict: "doubtful" } });
    while (step.done !== true) step = hearing.next();
    expect(step.value).toMatchObject({ text: "two thou", verdict: "ok" });
  });

  it("goes straight to what the beginning of a growing sentence named, and is not led astray by another's", async () => {
    const ear = await opened;
    const whole = await voice.say("ring gap number three top, sixteen thou");
    const options = { spec: DEMO_SPEC, context: NUT };
    const steps = (sentence: number | undefined) => {
      const hearing = ear.hearing(whole.pcm, whole.rate, { ...options, ...(sentence === undefined ? {} : { sentence }) });
      const sights: string[] = [];
      for (;;) {
        const step = hearing.next();
        if (step.done === true) return { sights, heard: step.value };
        if (step.value !== undefined) sights.push(step.value.text);
      }
    };
    ear.hear(whole.pcm.subarray(0, whole.rate * 1.2), whole.rate, { ...options, sentence: 7, beginning: true });
    const begun = steps(7);
    const text = "ring gap number three top, sixteen thou";
    expect(begun).toMatchObject({ heard: { text, verdict: "ok" } });
    expect(begun.sights[0]).toBe(text);
    const bore = await voice.say("bore two bottom thrust");
    ear.hear(bore.pcm, bore.rate, { ...options, sentence: 8, beginning: true });
    expect(steps(8).heard).toMatchObject({ text, verdict: "ok" });
    expect(steps(9).heard).toMatchObject({ text, verdict: "ok" });
  });

  // This beginning is heard as "bored", whose grammar alone has another sentence for the rest.
  it("is not led astray by a beginning that was heard as a name that sounds alike", async () => {
    const ear = await opened;
    const { pcm, rate } = await voice.say("bore two bottom thrust, three eight seven five two");
    const options = { spec: DEMO_SPEC, context: TAKEN, sentence: 10 };
    ear.hear(pcm.subarray(0, rate * 1.3), rate, { ...options, beginning: true });
    let sight: string | undefined;
    for (const step of ear.hearing(pcm, rate, options)) sight ??= step?.text;
    expect(sight).toBe("bore two bottom thrust, three eight seven five two");
  });
});

const TAKEN: Context = {
  step: "rings",
  quantity: "ring_end_gap",
  place: { cylinder: 2, ring: "top" },
  last: { quantity: "ring_end_gap", place: { cylinder: 2, ring: "top" }, value: 0.012, unit: "in" },
};

// "Wrong" is missing: this voice, cut off without a room after it, is not made out there and comes to nothing.
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

  it("fits a speaker from phrases read aloud, and hears with the kept profile", async () => {
    const phrases = [];
    for (const text of CALIBRATION_PHRASES.slice(0, 4)) phrases.push({ ...(await voice.say(text)), text });
    const speaker = readSpeaker(JSON.parse(JSON.stringify(await hearer.calibrate("bench", phrases, DEMO_SPEC))));
    expect(speaker.right).toBeGreaterThanOrEqual(3);
    expect(speaker.warp).toBeGreaterThan(0.9);
    const { pcm, rate } = await voice.say("ring gap three top, thirteen thou");
    const heard = await hearer.hear(pcm, rate, { spec: DEMO_SPEC, context: { step: "rings" }, speaker });
    expect(heard.text).toBe("ring gap three top, thirteen thou");
    expect(Math.abs(heard.warp - speaker.warp)).toBeLessThan(0.12);
  }, 120_000);

  it("hears an accent the model does not know once it has read aloud, and is itself again with who has not", async () => {
    const accent = espeakVoice("en-us", 150, 45);
    const phrases = [];
    for (const text of CALIBRATION_PHRASES) phrases.push({ ...(await accent.say(text)), text });
    const speaker = await hearer.calibrate("accent", phrases, DEMO_SPEC);
    const { pcm, rate } = await accent.say("ring gap four second, nineteen thou");
    const context = { step: "rings" } as const;
    const hear = (as?: typeof speaker) =>
      hearer.hear(pcm, rate, { spec: DEMO_SPEC, context, ...(as === undefined ? {} : { speaker: as }) });
    const { voice, ...scaleOnly } = speaker;
    expect(voice).toBeDefined();
    const stranger = await hear();
    const scaled = await hear(scaleOnly);
    const known = await hear(speaker);
    expect(known).toMatchObject({ text: "ring gap four second, nineteen thou", verdict: "ok" });
    expect(known.doubt.strangeness).toBeLessThan(scaled.doubt.strangeness * 0.85);
    expect(await hear()).toEqual(stranger);
  }, 120_000);

  it("refuses a calibration of too few phrases", async () => {
    await expect(hearer.calibrate("bench", [], DEMO_SPEC)).rejects.toThrow("Expected 4 or more phrases");
  });
});
