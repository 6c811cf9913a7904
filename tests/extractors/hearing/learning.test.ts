// What the ear learns of a voice while it is spoken to, on synthesised speech: from what, when, and of whom.
import createModule from "soundswallower";
import { afterAll, describe, expect, it } from "vitest";
import { shopNoise } from "../../../demo-data/shop-noise.ts";
import { espeakVoice, fliteVoice, type Voice } from "../../../demo-data/voices.ts";
import { mixAt } from "../../../extractors/hearing/audio/noise.ts";
import { Ear } from "../../../extractors/hearing/ear.ts";
import type { EngineFactory } from "../../../extractors/hearing/engine/module.ts";
import { readSpeaker, type Speaker, withLearnt } from "../../../extractors/hearing/index.ts";
import { readModelFile } from "../../../extractors/hearing/node/index.ts";
import type { Learning } from "../../../extractors/hearing/voice/fit.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { afterBlows } from "./shop-sounds.ts";

const voice = fliteVoice("rms");
/** What is said, and what else is to be heard. */
type Amid = (pcm: Float32Array, rate: number) => Float32Array;
const alone: Amid = (pcm) => pcm;
const inHum: Amid = (pcm, rate) => mixAt(pcm, shopNoise("hum", pcm.length, rate, 3), 12);

const PROFILE = { format: "thoubook-speaker/1", warp: 1.03, noise: -60, right: 12, phrases: 12 } as const;

describe("a voice of this session", () => {
  const opened = Ear.open(createModule as unknown as EngineFactory, readModelFile);
  afterAll(async () => (await opened).close());

  /** Rest until there is nothing more to learn, or for so many steps; what each step came to. */
  function rest(ear: Ear, most = Number.POSITIVE_INFINITY): Learning[] {
    const steps: Learning[] = [];
    while (steps.length < most) {
      const step = ear.rest();
      steps.push(step);
      if (step !== "learning") break;
    }
    return steps;
  }

  const accent = espeakVoice("en-us", 150, 45);
  /** Said once each: this voice does not say the same twice alike, and what is compared must be one sound. */
  const sounds = new Map<string, ReturnType<Voice["say"]>>();
  function sayOnce(by: Voice, text: string) {
    const key = `${by.name} ${text}`;
    const sound = sounds.get(key) ?? by.say(text);
    sounds.set(key, sound);
    return sound;
  }
  async function hear(
    text: string,
    name: string,
    by: Voice = voice,
    more: { sentence?: number; profile?: Omit<Speaker, "name">; amid?: Amid } = {},
  ) {
    const { pcm, rate } = await sayOnce(by, text);
    const { profile = PROFILE, amid = alone, ...growing } = more;
    const options = { spec: DEMO_SPEC, context: { step: "rings" as const }, speaker: { ...profile, name }, ...growing };
    return (await opened).hear(amid(pcm, rate), rate, options);
  }

  it("is learnt at rest from what was heard without doubt, and forgotten with the next person", async () => {
    const ear = await opened;
    const first = await hear("ring gap three top, thirteen thou", "one");
    expect(rest(ear)).toEqual(["idle"]);
    for (const text of ["ring gap one second, sixteen thou", "ring gap four oil, twenty thou", "ring gap two top, twelve thou"])
      expect(await hear(text, "one")).toMatchObject({ text, verdict: "ok" });
    expect(rest(ear).at(-1)).toBe("learnt");
    expect(rest(ear)).toEqual(["idle"]);
    const learnt = await hear("ring gap three top, thirteen thou", "one");
    expect(learnt).toMatchObject({ text: first.text, verdict: "ok" });
    expect(learnt.doubt.strangeness).toBeLessThan(first.doubt.strangeness);
    expect((await hear("ring gap three top, thirteen thou", "two")).doubt.strangeness).toBe(first.doubt.strangeness);
  });

  it("is learnt in steps, which a sentence may come between, and which end with the person who spoke", async () => {
    const ear = await opened;
    const asked = "ring gap one second, sixteen thou";
    const said = [asked, "ring gap four oil, twenty thou", "ring gap two top, twelve thou"];
    const first = await hear(asked, "three");
    for (const text of said.slice(1)) expect(await hear(text, "three")).toMatchObject({ text, verdict: "ok" });
    expect(rest(ear, 2)).toEqual(["learning", "learning"]);
    expect(await hear(asked, "three")).toMatchObject({ verdict: "ok", doubt: { strangeness: first.doubt.strangeness } });
    expect(rest(ear).at(-1)).toBe("learnt");
    for (const text of said) expect(await hear(text, "three")).toMatchObject({ text, verdict: "ok" });
    expect(rest(ear, 2)).toEqual(["learning", "learning"]);
    expect((await hear(asked, "four")).doubt.strangeness).toBe(first.doubt.strangeness);
    expect(rest(ear)).toEqual(["idle"]);
  });

  it("is learnt from a doubtful sentence when the next one says yes to it, and not when another came between", async () => {
    const ear = await opened;
    expect(await hear("ring gap two top, twelve thou", "no", accent)).toMatchObject({ verdict: "doubtful" });
    for (const text of ["ring gap three top, thirteen thou", "confirm"])
      expect(await hear(text, "no")).toMatchObject({ verdict: "ok" });
    expect(rest(ear)).toEqual(["idle"]);
    const stranger = await hear("ring gap one oil, sixteen thou", "stranger", accent);
    expect(await hear("ring gap two top, twelve thou", "yes", accent)).toMatchObject({ verdict: "doubtful" });
    for (const turn of [1, 2]) expect(await hear("confirm", "yes"), `turn ${turn}`).toMatchObject({ verdict: "ok" });
    expect(rest(ear).at(-1)).toBe("learnt");
    const known = await hear("ring gap one oil, sixteen thou", "yes", accent);
    expect(known.text).toBe("ring gap one oil, sixteen thou");
    expect(known.doubt.strangeness).toBeLessThan(stranger.doubt.strangeness * 0.9);
  });

  it("is learnt from a doubtful sentence that is said yes to by hand, and kept for the next session", async () => {
    const ear = await opened;
    const asked = "ring gap one oil, sixteen thou";
    const stranger = await hear(asked, "nobody", accent);
    expect(ear.learnt()).toBeUndefined();
    expect(await hear("ring gap two top, twelve thou", "hand", accent, { sentence: 7 })).toMatchObject({ verdict: "doubtful" });
    for (const text of ["ring gap one second, sixteen thou", "ring gap four oil, twenty thou"])
      expect(await hear(text, "hand")).toMatchObject({ text, verdict: "ok" });
    ear.confirm(8);
    expect(rest(ear)).toEqual(["idle"]);
    ear.confirm(7);
    expect(rest(ear).at(-1)).toBe("learnt");
    const here = await hear(asked, "hand", accent);
    expect(here.doubt.strangeness).toBeLessThan(stranger.doubt.strangeness * 0.9);
    const learnt = ear.learnt();
    expect(learnt).toMatchObject({ sentences: 3 });
    const kept = learnt && withLearnt({ ...PROFILE, name: "kept" }, "kept", learnt);
    expect(kept).toMatchObject({ sentences: 3, right: PROFILE.right });
    const profile = readSpeaker(JSON.parse(JSON.stringify(kept)));
    const next = await hear(asked, "kept", accent, { profile });
    expect(Math.abs(next.doubt.strangeness - here.doubt.strangeness)).toBeLessThan(5);
  });

  it.each([
    ["after blows", (pcm, rate) => afterBlows(pcm, rate, 5)],
    ["in hum", inHum],
  ] as readonly (readonly [string, Amid])[])("is not learnt from what was said %s, sure though it is", async (where, amid) => {
    const ear = await opened;
    const said = ["ring gap one second, thirteen thou", "ring gap four oil, twenty thou", "ring gap two top, twelve thou"];
    for (const text of said) expect(await hear(text, where, voice, { amid })).toMatchObject({ text, verdict: "ok" });
    expect(rest(ear)).toEqual(["idle"]);
    for (const text of said) expect(await hear(text, where)).toMatchObject({ text, verdict: "ok" });
    expect(rest(ear).at(-1)).toBe("learnt");
  });
});
