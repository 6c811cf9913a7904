// Whether enough of a sound is a voice. Tones, hiss and bursts are made here, so that it is known what they are; the speech is synthetic voices'.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { shopNoise } from "../../../demo-data/shop-noise.ts";
import { espeakVoice, fliteVoice, type Voice } from "../../../demo-data/voices.ts";
import { mixAt, pinkNoise, seeded } from "../../../extractors/hearing/audio/noise.ts";
import { isVoice } from "../../../extractors/hearing/audio/voicing.ts";
import { LEAST_VOICED } from "../../../extractors/hearing/doubt/verdict.ts";
import { resample } from "../../../extractors/hearing/index.ts";

const RATE = 16_000;
const sound = (seconds: number, at: (seconds: number) => number) =>
  Float32Array.from({ length: Math.round(seconds * RATE) }, (_, index) => at(index / RATE));
const tone = (pitch: number, harmonics: number) => (at: number) =>
  Array.from({ length: harmonics }, (_, k) => Math.sin(2 * Math.PI * pitch * (k + 1) * at) / (k + 1) ** 2).reduce(
    (a, b) => a + b,
  );

describe("sound that is a voice", () => {
  it("is one at every pitch of speech, loud or soft", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 75, max: 350, noNaN: true }),
        fc.integer({ min: 2, max: 8 }),
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        (pitch, harmonics, gain) => {
          const voice = tone(pitch, harmonics);
          expect(
            isVoice(
              sound(0.6, (at) => gain * voice(at)),
              0.9,
            ),
          ).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });

  const random = seeded(9);
  it.each([
    ["hiss", sound(1, () => random() - 0.5)],
    ["pink noise", pinkNoise(RATE, seeded(4))],
    ["a whistle", sound(1, tone(3100, 1))],
    ["a blow that rings", sound(0.5, (at) => Math.exp(-at / 0.05) * (Math.sin(2 * Math.PI * 2300 * at) + random() - 0.5))],
  ])("is not %s", (_, other) => {
    expect(isVoice(other, LEAST_VOICED)).toBe(false);
  });

  it.each([[fliteVoice("rms")], [fliteVoice("slt")], [espeakVoice("en-us", 150, 45)]] as readonly (readonly [Voice])[])(
    "is what is said, the shortest commands and in noise too: %j",
    async (voice) => {
      for (const text of ["wrong", "next", "done", "six", "undo", "ring gap number two top, sixteen thou"]) {
        const { pcm, rate } = await voice.say(text);
        const said = resample(pcm, rate, RATE);
        expect(isVoice(said, 0.3), text).toBe(true);
        for (const kind of ["pink", "hum", "impact"] as const)
          expect(isVoice(mixAt(said, shopNoise(kind, said.length, RATE, 3), 10), LEAST_VOICED), `${text}, ${kind}`).toBe(true);
      }
    },
  );

  it("is taken for one where a sound is too short to tell", () => {
    expect(isVoice(new Float32Array(300), 1)).toBe(true);
  });
});
