// Blows on steel in a clip, and what they have to do with the words. The blows are made here (a decaying tone with hiss, there at
// once: common practice, no source), the speech is a synthetic voice's; times and levels are known because they were put in.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { shopNoise } from "../../../demo-data/shop-noise.ts";
import { fliteVoice } from "../../../demo-data/voices.ts";
import { blowsIn } from "../../../extractors/hearing/audio/blows.ts";
import { frameLevels, levelsOf } from "../../../extractors/hearing/audio/level.ts";
import { loneBlows, loudBlows, withoutBlows } from "../../../extractors/hearing/audio/lone-blows.ts";
import { mixAt, pinkNoise, seeded } from "../../../extractors/hearing/audio/noise.ts";
import { evidenceOf } from "../../../extractors/hearing/doubt/evidence.ts";
import type { Struck } from "../../../extractors/hearing/doubt/struck.ts";
import { FLATTEST_SNR, judge, leadWanted } from "../../../extractors/hearing/doubt/verdict.ts";
import { vote } from "../../../extractors/hearing/doubt/vote.ts";
import { clipOf } from "../../../extractors/hearing/heard.ts";
import { passOf } from "./passes.ts";
import { inQuiet } from "./shop-sounds.ts";

const RATE = 16_000;

/** Add a blow that begins at `at` seconds, its first swing `peak`. */
function strike(pcm: Float32Array, at: number, peak: number, pitch = 1500, decay = 0.04): void {
  const random = seeded(Math.round(at * 1000));
  const first = Math.round(at * RATE);
  for (let i = 0; i < decay * 5 * RATE && first + i < pcm.length; i += 1)
    pcm[first + i] =
      (pcm[first + i] ?? 0) +
      peak * Math.exp(-i / (decay * RATE)) * (Math.sin((2 * Math.PI * pitch * i) / RATE) + random() - 0.5);
}

/** The same with a blow more. */
function struckAt(pcm: Float32Array, at: number, peak = 0.3): Float32Array {
  strike(pcm, at, peak);
  return pcm;
}

const LOUD = 10 * Math.log10(0.2 ** 2 / 2);
const room = (seconds: number) => pinkNoise(seconds * RATE, seeded(3)).map((sample) => sample * 0.0005);

/** A room in which a vowel of loud speech sounds at these times: a tone that swells and falls. */
function speaking(seconds: number, words: readonly (readonly [number, number])[]): Float32Array {
  const pcm = room(seconds);
  for (const [start, end] of words)
    for (let i = Math.round(start * RATE); i < end * RATE; i += 1) {
      const swell = Math.min(1, (i - start * RATE) / 800, (end * RATE - i) / 800);
      pcm[i] = (pcm[i] ?? 0) + 0.2 * swell * Math.sin((2 * Math.PI * 500 * i) / RATE);
    }
  return pcm;
}

describe("blows", () => {
  it("as loud as speech are found where they were struck, at every pitch and decay of a hammer on steel", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 0.8, noNaN: true }),
        fc.integer({ min: 600, max: 3000 }),
        fc.double({ min: 0.02, max: 0.08, noNaN: true }),
        (at, pitch, decay) => {
          const pcm = room(1);
          strike(pcm, at, 0.2, pitch, decay);
          const found = blowsIn(pcm, RATE, LOUD);
          expect(found.length).toBeGreaterThan(0);
          for (const blow of found) expect(Math.abs(blow.at - at)).toBeLessThan(0.012);
        },
      ),
      { numRuns: 50 },
    );
  });

  it.each([
    ["a blow 20 dB below speech", (pcm: Float32Array) => strike(pcm, 0.5, 0.02)],
    ["noise as loud as speech", (pcm: Float32Array) => pcm.set(pinkNoise(pcm.length, seeded(5)).map((sample) => sample * 0.2))],
    ["a vowel", (pcm: Float32Array) => pcm.set(speaking(1, [[0.2, 0.8]]))],
  ])("are not found in %s", (_what, put) => {
    const pcm = room(1);
    put(pcm);
    expect(blowsIn(pcm, RATE, LOUD)).toEqual([]);
  });

  it("are not found between the words of a sentence in a quiet room", async () => {
    const pcm = await inQuiet(fliteVoice("rms"), "ring gap number two top, sixteen thou");
    const levels = levelsOf(pcm, RATE);
    const outside = blowsIn(pcm, RATE, levels.noise + levels.snr).filter(({ at }) => at < 0.28 || at > pcm.length / RATE - 0.38);
    expect(outside).toEqual([]);
  });
});

const LEVELS = { snr: LOUD + 80, noise: -80, from: 0, to: 0 };
const SPOKEN = [
  [0.3, 0.6],
  [0.7, 1.1],
  [1.2, 1.6],
] as const;
const decodedAs = (spans: readonly (readonly [number, number])[]) => ({
  words: spans.map(([start, end]) => ({ word: "two~v", start, end, cost: 50 })),
  cost: 300,
});

describe("a sentence may hold a blow for a word", () => {
  it.each<readonly [string, readonly (readonly [number, number])[], readonly (readonly [number, number])[], Struck]>([
    ["where nobody strikes", SPOKEN, [], "no"],
    [
      "where blows fall on a word and between the words",
      SPOKEN,
      [
        [0.9, 0.4],
        [2, 0.25],
      ],
      "on_a_word",
    ],
    [
      "where they fall between the words alone",
      SPOKEN,
      [
        [0.1, 0.4],
        [2, 0.25],
      ],
      "beside",
    ],
    ["where one falls on a word, as some consonants do", SPOKEN, [[0.9, 0.4]], "no"],
    [
      "where those between the words are faint",
      SPOKEN,
      [
        [0.9, 0.4],
        [2, 0.05],
      ],
      "no",
    ],
    [
      "where those on a word are fainter than it",
      SPOKEN,
      [
        [0.9, 0.06],
        [2, 0.25],
      ],
      "beside",
    ],
    ["where the last word is little but a blow", [...SPOKEN, [1.9, 2.3]], [[1.95, 0.3]], "on_a_word"],
    ["where the first is", [[0.02, 0.25], ...SPOKEN], [[0.04, 0.3]], "on_a_word"],
  ])("%s: %#", (_where, spans, blows, struck) => {
    const pcm = speaking(2.5, SPOKEN);
    for (const [at, peak] of blows) strike(pcm, at, peak);
    expect(evidenceOf(decodedAs(spans), pcm, RATE, { levels: LEVELS, hammered: false }).struck).toBe(struck);
  });

  it("and is asked about then, whatever agrees on it; a note in free words is kept as it is", () => {
    const evidence = { strangeness: 200, unexplained: 0, words: [] };
    const found = (text: string, struck: Struck) =>
      judge(vote([passOf(text), passOf(text, { warp: 0.96 })]), { ...evidence, struck }, 30, { fitted: true });
    expect(found("end float seven thou", "beside")).toBe("ok");
    expect(found("end float seven thou", "on_a_word")).toBe("doubtful");
    expect(found("note", "on_a_word")).toBe("ok");
  });

  it.each([
    ["ring gap three top fifteen thou", "no", 10],
    ["ring gap three top fifteen thou", "beside", 40],
    ["rod one fifty", "beside", 40],
    ["ring gap three top thirteen thou", "beside", 10],
    ["rod two forty one", "beside", 0],
    ["twelve thou", "on_a_word", Number.POSITIVE_INFINITY],
  ] as const)("and must lead far where a blow is a hush of another's: %s, blows: %s", (text, struck, lead) => {
    expect(leadWanted(passOf(text), "ok", 40, () => 40, struck)).toBe(lead);
  });

  it.each([
    ["that fits is asked about", 300, true, "doubtful"],
    ["that all passes heard alike is asked about, though it fits badly", 390, true, "doubtful"],
    ["that all passes heard alike and that hardly fits is the blows themselves", 410, true, "nothing"],
    ["that fits is asked about where passes do not agree", 300, false, "doubtful"],
    ["that fits badly where passes do not agree is the blows themselves", 350, false, "nothing"],
  ] as const)("a stranger's sentence under blows %s", (_, strangeness, together, verdict) => {
    const others = together ? ["pin two tight"] : ["pin two tight", "pin one tight"];
    const passes = ["pin two tight", ...others].map((text, turn) => passOf(text, { turn }));
    expect(judge(vote(passes), { strangeness, unexplained: 0, struck: "on_a_word", words: [] }, 30)).toBe(verdict);
  });
});

describe("a clip in steady noise", () => {
  const hummed = (pcm: Float32Array) => mixAt(pcm, shopNoise("hum", pcm.length, RATE, 3), 8);
  it.each([
    ["where there is none", () => speaking(2.5, SPOKEN), false],
    ["where something hums", () => hummed(speaking(2.5, SPOKEN)), true],
    ["where a blow is far fainter than the words", () => hummed(struckAt(speaking(2.5, SPOKEN), 2, 0.02)), true],
    ["where a blow falls on a word", () => hummed(struckAt(speaking(2.5, SPOKEN), 0.9)), false],
    ["where a blow stands alone", () => hummed(struckAt(speaking(2.5, SPOKEN), 2)), false],
    ["where a blow falls on a word in quiet", () => struckAt(speaking(2.5, SPOKEN), 0.9), false],
  ])("is told %s", (_, pcm, inNoise) => {
    expect(clipOf(pcm(), RATE)).toMatchObject({ inNoise });
  });
});

describe("a blow that stands alone", () => {
  const alone = (pcm: Float32Array) => {
    const levels = levelsOf(pcm, RATE);
    return loneBlows(pcm, RATE, levels, loudBlows(pcm, RATE, levels));
  };

  it("is found from its beginning until it has died away, at every pitch and decay of a hammer on steel", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(0.05, 0.75, 1.9),
        fc.integer({ min: 600, max: 3000 }),
        fc.double({ min: 0.02, max: 0.035, noNaN: true }),
        (at, pitch, decay) => {
          const pcm = speaking(2.5, [
            [0.3, 0.6],
            [1.2, 1.6],
          ]);
          strike(pcm, at, 0.3, pitch, decay);
          const [blow, ...others] = alone(pcm);
          expect(others).toEqual([]);
          expect(Math.abs((blow?.from ?? 0) / 100 - at)).toBeLessThan(0.02);
        },
      ),
      { numRuns: 50 },
    );
  });

  it.each([
    ["where nobody strikes", () => speaking(2.5, SPOKEN)],
    ["on a word", () => struckAt(speaking(2.5, SPOKEN), 0.9)],
    ["that runs into a word", () => struckAt(speaking(2.5, SPOKEN), 0.62)],
    ["that is far fainter than the words", () => struckAt(speaking(2.5, SPOKEN), 2, 0.02)],
    ["where there is no sound at all", () => new Float32Array(RATE)],
  ])("is not found %s", (_, pcm) => {
    expect(alone(pcm())).toEqual([]);
  });

  it("is not found in what a synthetic voice says in a quiet room, nor in the same in hum", async () => {
    for (const text of ["exhaust two", "rod one nut B, forty foot pounds", "take a photo", "two", "eight", "six tenths tight"]) {
      const pcm = await inQuiet(fliteVoice("rms"), text);
      expect(alone(pcm), text).toEqual([]);
      expect(alone(mixAt(pcm, shopNoise("hum", pcm.length, RATE, 7), 15)), `${text}, in hum`).toEqual([]);
    }
  });

  it("is made as quiet as the room, and nothing else is touched", () => {
    const clean = speaking(2.5, SPOKEN);
    const pcm = struckAt(clean.slice(), 2);
    const levels = levelsOf(pcm, RATE);
    const quiet = withoutBlows(pcm, RATE, alone(pcm), levels.noise);
    expect(alone(quiet)).toEqual([]);
    expect(Math.max(...frameLevels(quiet.subarray(1.9 * RATE), 160))).toBeLessThan(levels.noise + 15);
    expect(quiet.subarray(0, 1.9 * RATE)).toEqual(clean.subarray(0, 1.9 * RATE));
  });

  it("leaves nothing to hear where nobody speaks", () => {
    const pcm = struckAt(struckAt(room(2), 0.4), 1.3);
    expect(clipOf(pcm, RATE)).toMatchObject({ hammered: true });
    expect(clipOf(pcm, RATE).levels.snr).toBeLessThan(FLATTEST_SNR);
  });
});
