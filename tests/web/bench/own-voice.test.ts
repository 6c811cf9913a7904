// What a shift learns of a voice is kept on the device, unless somebody read aloud or was forgotten meanwhile; and which sentence a
// yes by hand belongs to.
import { describe, expect, it } from "vitest";
import type { Speaker } from "../../../extractors/hearing/index.ts";
import { parse } from "../../../extractors/speech/index.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { OwnVoice } from "../../../web/bench/own-voice.ts";
import { forgetSpeaker, keepSpeaker, speakerOf } from "../../../web/bench/speakers.ts";
import type { Device } from "../../../web/store/device.ts";
import type { Outcome } from "../../../web/store/words.ts";

const READ_ALOUD: Speaker = { format: "thoubook-speaker/1", name: "bench", warp: 0.97, right: 11, phrases: 12, voice: "AAAA" };
const LEARNT = { warp: 0.98, voice: "BBBB", sentences: 12 };

/** A device that keeps settings in memory. */
function deviceWith(): Device {
  const settings = new Map<string, unknown>();
  const db = {
    get: async (_: string, key: string) => settings.get(key),
    put: async (_: string, value: unknown, key: string) => void settings.set(key, value),
  };
  return { id: "bench-test", db } as unknown as Device;
}

describe("what a shift learns of a voice", () => {
  it("is put with the profile it began with, each time anew", async () => {
    const device = deviceWith();
    await keepSpeaker(device, "bench", READ_ALOUD);
    const own = await OwnVoice.open(device, "bench");
    expect(own.speaker).toEqual(READ_ALOUD);
    await own.keep(LEARNT);
    await own.keep({ ...LEARNT, voice: "CCCC", sentences: 24 });
    expect(await speakerOf(device, "bench")).toEqual({ ...READ_ALOUD, voice: "CCCC", sentences: 24 });
    expect(own.speaker).toEqual(READ_ALOUD);
  });

  it("begins a profile for who never read aloud", async () => {
    const device = deviceWith();
    const own = await OwnVoice.open(device, "bench");
    await own.keep({ ...LEARNT, sentences: 6 });
    expect(await speakerOf(device, "bench")).toBeUndefined();
    await own.keep(LEARNT);
    expect(await speakerOf(device, "bench")).toMatchObject({ warp: 0.98, phrases: 0, sentences: 12, voice: "BBBB" });
  });

  it("gives way to a reading aloud, and to being forgotten, since the shift began", async () => {
    const device = deviceWith();
    const stranger = await OwnVoice.open(device, "bench");
    await keepSpeaker(device, "bench", READ_ALOUD);
    await stranger.keep(LEARNT);
    expect(await speakerOf(device, "bench")).toEqual(READ_ALOUD);
    const known = await OwnVoice.open(device, "bench");
    await forgetSpeaker(device, "bench");
    await known.keep(LEARNT);
    expect(await speakerOf(device, "bench")).toBeUndefined();
  });
});

function outcome(text: string, does: "accept" | "confirm"): Outcome {
  const parsed = parse(text, { step: "rings" }, DEMO_SPEC);
  const readings = parsed.readings.map((reading) => ({ ...reading, do: does }));
  return { parsed: { ...parsed, readings }, events: [{ id: "event-1" }] as unknown as Outcome["events"], say: [] };
}

describe("a yes by hand", () => {
  it.each([
    ["teaches a reading that waits", "ring gap two top, twelve thou", "confirm", 5],
    ["teaches nothing of one that was sure", "ring gap two top, twelve thou", "accept", undefined],
    ["teaches nothing of several in one sentence", "rings on two: twelve, fourteen, twelve", "confirm", undefined],
  ] as const)("%s", async (_, text, does, sentence) => {
    const own = await OwnVoice.open(deviceWith(), "bench");
    own.logged(outcome(text, does), 5);
    expect(own.sentenceOf("event-1")).toBe(sentence);
    expect(own.sentenceOf("event-1")).toBeUndefined();
  });
});
