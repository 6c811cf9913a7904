// Fitting the acoustic model to a voice: the front end's numbers against another program's, the model's files against their own
// checksums, and the estimates against what their definitions say of data made for it.
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { fliteVoice } from "../../../demo-data/voices.ts";
import { Decoder } from "../../../extractors/hearing/engine/decoder.ts";
import type { Engine } from "../../../extractors/hearing/engine/engine.ts";
import {
  codebookOf,
  DENSITIES,
  GAUSSIANS,
  Gaussians,
  type Mixtures,
  STREAMS,
  WIDTH,
} from "../../../extractors/hearing/engine/gaussians.ts";
import type { GaussianFiles, Model } from "../../../extractors/hearing/engine/model.ts";
import type { EngineModule } from "../../../extractors/hearing/engine/module.ts";
import { resample } from "../../../extractors/hearing/index.ts";
import { finish } from "../../../extractors/hearing/steps.ts";
import { fittedMeans, transformFor } from "../../../extractors/hearing/voice/adapt.ts";
import { cepstraOf, featuresOf, ROW } from "../../../extractors/hearing/voice/features.ts";
import { keep, unpack } from "../../../extractors/hearing/voice/kept.ts";
import { VoiceLearner } from "../../../extractors/hearing/voice/learner.ts";
import { listenTo } from "../../../extractors/hearing/voice/listen.ts";
import { VoiceStatistics } from "../../../extractors/hearing/voice/statistics.ts";
import { openModel } from "./open-model.ts";
import { sweep } from "./voice-sweep.ts";

let model: Model;
let gaussians: Gaussians;
let module: EngineModule;
let engine: Engine;
beforeAll(async () => {
  ({ model, gaussians, module, engine } = await openModel());
});

const DICTIONARY = "one W AH N\ntwo T UW\n";
const grammarOf = (word: string, padding = 0) =>
  `FSG_BEGIN g\nNUM_STATES 2\nSTART_STATE 0\nFINAL_STATE 1\nTRANSITION 0 1 1.0 ${word}\nFSG_END\n${" ".repeat(padding)}`;

describe("front end", () => {
  let decoder: Decoder;
  let cepstra: Float32Array;
  beforeAll(() => {
    decoder = new Decoder(engine, DICTIONARY);
    // The first sound of a front end: later ones begin with its noise tracker a little elsewhere.
    cepstra = cepstraOf(decoder.spectrum(sweep()), model.features.lifter);
  });
  afterAll(() => decoder.close());

  // Printed by another program of the same family, sphinx_fe of Debian's sphinxbase-utils 0.8+5prealpha+1-16, for the same sound:
  // sphinx_fe -i sweep.wav -o sweep.mfc -mswav yes -samprate 16000 -lowerf 130 -upperf 3700 -nfilt 20 -transform dct -lifter 22
  // -remove_noise yes -remove_silence no
  const CEPSTRA: readonly (readonly [number, readonly number[]])[] = [
    [5, [44.207, 28.837, -10.769, -41.277, -55.918, -32.617, 7.017, 38.595, 37.964, 14.396, -9.206, -13.584, -4.428]],
    [20, [50.709, -2.693, -31.231, 42.834, 7.349, -47.303, 26.052, 35.911, -41.18, 0.187, 39.499, -14.403, -18.057]],
    [35, [55.168, -15.758, 10.225, 4.658, -29.987, 50.781, -54.61, 44.071, -20.364, -3.877, 19.133, -23.744, 20.605]],
  ];
  it.each(CEPSTRA)("gives frame %i the cepstra of the published front end", (frame, wanted) => {
    wanted.forEach((value, i) => {
      expect(Math.abs((cepstra[frame * WIDTH + i] ?? 0) - value)).toBeLessThan(0.002);
    });
  });

  it("frees the cepstra of their mean and takes their differences over two and three frames", () => {
    const spectrum = decoder.spectrum(sweep());
    const again = cepstraOf(spectrum, 22);
    const { frames, values } = featuresOf(spectrum, 22);
    const mean = again.filter((_, index) => index % WIDTH === 3).reduce((sum, value) => sum + value, 0) / frames;
    const at = (t: number) => again[t * WIDTH + 3] ?? 0;
    expect(values[20 * ROW + 3]).toBeCloseTo(at(20) - mean, 3);
    expect(values[20 * ROW + WIDTH + 3]).toBeCloseTo(at(22) - at(18), 3);
    expect(values[20 * ROW + 2 * WIDTH + 3]).toBeCloseTo(at(23) - at(19) - (at(21) - at(17)), 3);
  });
});

describe("the model's files", () => {
  it("come out as they went in, checksum included", () => {
    expect(Buffer.compare(gaussians.filesWith(gaussians.means).means, model.files.means)).toBe(0);
  });

  it("are refused when they are others", () => {
    const files = { ...model.files, means: model.files.means.subarray(0, 5000) };
    expect(() => new Gaussians({ ...model, files })).toThrow("Expected the parameters of every Gaussian");
    expect(() => new Gaussians({ ...model, files: { ...model.files, means: new Uint8Array(100) } })).toThrow("parameter file");
  });

  it("are loaded with other means, and refused with a checksum that is not theirs", async () => {
    const { pcm, rate } = await fliteVoice("rms").say("one");
    const sound = resample(pcm, rate, 16_000);
    const moved = gaussians.filesWith(gaussians.means.map((mean) => mean * 1.5));
    const costWith = (files?: GaussianFiles) => {
      const decoder = new Decoder(engine, DICTIONARY, engine.hold(files));
      decoder.setGrammar(grammarOf("one"));
      const { cost } = decoder.decode(sound);
      decoder.close();
      return cost;
    };
    expect(costWith()).toBeGreaterThan(0);
    expect(costWith(gaussians.filesWith(gaussians.means))).toBe(costWith());
    expect(costWith(moved)).not.toBe(costWith());
    const { means } = moved;
    means[means.length - 1] = (means[means.length - 1] ?? 0) ^ 1;
    expect(() => new Decoder(engine, DICTIONARY, engine.hold(moved))).toThrow("Expected the model's Gaussians to load");
  });

  it("leaves nothing behind of a grammar that was set", () => {
    const decoder = new Decoder(engine, DICTIONARY);
    decoder.setGrammar(grammarOf("one", 1_000_000));
    const before = module.HEAPU8.length;
    for (let turn = 0; turn < 60; turn += 1) decoder.setGrammar(grammarOf(turn % 2 === 0 ? "one" : "two", 1_000_000));
    expect(module.HEAPU8.length).toBe(before);
    decoder.close();
  });

  it("hears on after a word that the dictionary does not have was refused", async () => {
    const decoder = new Decoder(engine, DICTIONARY);
    decoder.setGrammar(grammarOf("one"));
    const { pcm, rate } = await fliteVoice("rms").say("one");
    const sound = resample(pcm, rate, 16_000);
    const before = decoder.decode(sound);
    expect(() => decoder.setGrammar(grammarOf("three"))).toThrow('words are all in the dictionary, got "three"');
    expect(decoder.decode(sound)).toEqual(before);
    expect(decoder.align(sound, "one three")).toEqual([]);
    expect(decoder.align(sound, "one")).not.toEqual([]);
    decoder.close();
  });
});

/** A voice in which every Gaussian of the phones heard `frames` frames with the mean that `said` gives for its own. */
function voiceOf(frames: number, said: (mean: Float32Array, stream: number) => readonly number[]): VoiceStatistics {
  const statistics = new VoiceStatistics();
  for (const phone of ["AA", "IY", "N", "S", "T", "W", "UW"])
    for (let stream = 0; stream < STREAMS; stream += 1)
      for (let density = 0; density < DENSITIES; density += 1) {
        const gaussian = ((codebookOf(phone) ?? 0) * STREAMS + stream) * DENSITIES + density;
        statistics.frames[gaussian] = frames;
        said(gaussians.means.subarray(gaussian * WIDTH, (gaussian + 1) * WIDTH), stream).forEach((value, i) => {
          statistics.sums[gaussian * WIDTH + i] = frames * value;
        });
      }
  return statistics;
}

const small = fc.double({ min: -0.3, max: 0.3, noNaN: true });

describe("the transform of a voice", () => {
  // By its definition: the maximum likelihood estimate for data that are an affine transform of the means is that transform.
  it("is the one the voice was made with", () => {
    const row = fc.record({
      offset: fc.double({ min: -5, max: 5, noNaN: true }),
      factors: fc.array(small, { minLength: WIDTH, maxLength: WIDTH }),
    });
    fc.assert(
      fc.property(row, fc.integer({ min: 0, max: WIDTH - 1 }), ({ offset, factors }, at) => {
        const voice = voiceOf(1000, (mean) =>
          [...mean].map((value, i) =>
            i === at ? offset + value + factors.reduce((sum, factor, j) => sum + factor * (mean[j] ?? 0), 0) : value,
          ),
        );
        const transform = transformFor(voice, gaussians);
        for (const stream of transform) {
          expect(stream[at]?.[0]).toBeCloseTo(offset, 1);
          factors.forEach((factor, j) => {
            expect(stream[at]?.[j + 1]).toBeCloseTo(factor + (j === at ? 1 : 0), 2);
          });
        }
      }),
      { numRuns: 5, endOnFailure: true },
    );
  });

  it("is none without a voice, and near none after a word or two", () => {
    const factors = (voice: VoiceStatistics) => transformFor(voice, gaussians)[0]?.[4] ?? [];
    factors(new VoiceStatistics()).forEach((factor, i) => {
      expect(factor).toBeCloseTo(i === 5 ? 1 : 0, 9);
    });
    const twice = voiceOf(0.001, (mean) => [...mean].map((value) => 2 * value));
    expect(factors(twice)[5]).toBeGreaterThan(1);
    expect(factors(twice)[5]).toBeLessThan(1.2);
  });
});

describe("means fitted to a voice", () => {
  it("move on from the transform towards what was heard, the further the more was heard", () => {
    const gaussian = (codebookOf("IY") ?? 0) * STREAMS * DENSITIES + 7;
    const at = gaussian * WIDTH;
    const own = gaussians.means[at] ?? 0;
    const fittedTo = (frames: number) => {
      const voice = new VoiceStatistics();
      voice.frames[gaussian] = frames;
      for (let i = 0; i < WIDTH; i += 1) voice.sums[at + i] = frames * ((gaussians.means[at + i] ?? 0) + 10);
      return fittedMeans(voice, gaussians)[at] ?? 0;
    };
    const [little, more, much] = [fittedTo(1), fittedTo(10), fittedTo(10_000)];
    expect(little).toBeGreaterThan(own);
    expect(more).toBeGreaterThan(little);
    expect(much).toBeCloseTo(own + 10, 1);
  });

  it("leave silence and noises as they are, whoever speaks", () => {
    const fitted = fittedMeans(
      voiceOf(1000, (mean) => [...mean].map((value) => value + 5)),
      gaussians,
    );
    const size = STREAMS * DENSITIES * WIDTH;
    const same = Array.from({ length: GAUSSIANS / STREAMS / DENSITIES }, (_, codebook) =>
      fitted.subarray(codebook * size, (codebook + 1) * size).every((mean, i) => mean === gaussians.means[codebook * size + i]),
    );
    expect(same.filter(Boolean)).toHaveLength(3);
    expect(codebookOf("SIL")).toBeUndefined();
    expect(codebookOf("+SPN+")).toBeUndefined();
  });
});

describe("a clip that is heard in noise too", () => {
  const frame = (value: number) => ({ frames: 1, values: new Float32Array(ROW).fill(value) });
  const senones = [0, 1000, 2500] as const;

  it.each(senones)("goes, frame by frame, to the densities that heard it clean (senone %i)", (senone) => {
    const states = [{ phone: "AH", senone, from: 0, to: 1 }];
    const [clean, both] = [new VoiceStatistics(), new VoiceStatistics()];
    clean.add(frame(2), states, gaussians);
    both.add(frame(2), states, gaussians, [frame(-40), frame(7)]);
    const heard = [...clean.frames.keys()].filter((gaussian) => (clean.frames[gaussian] ?? 0) > 0);
    expect(heard.length).toBeGreaterThan(0);
    for (const gaussian of heard) {
      const part = clean.frames[gaussian] ?? 0;
      expect(both.frames[gaussian]).toBeCloseTo(3 * part, 12);
      expect(both.sums[gaussian * WIDTH]).toBeCloseTo(part * (2 - 40 + 7), 6);
    }
    expect(both.frames.filter((part) => part > 0)).toHaveLength(heard.length);
  });
});

describe("a clip that is listened to", () => {
  const lifter = 22;
  const clip = { pcm: new Float32Array(16_000), rate: 16_000, warp: 1, words: "one" };
  /** A decoder that finds one state in the frames `from` to `to`, and whose front end hears nothing. */
  const deaf = (from: number, to: number) =>
    ({
      align: () => (to > from ? [{ phone: "AH", senone: 0, from, to }] : []),
      spectrum: (pcm: Float32Array) => {
        const nfr = Math.floor(pcm.length / 160);
        return { data: new Float32Array(nfr * 20), nfr, nfeat: 20 };
      },
    }) as unknown as Decoder;
  const framesHeard = (decoder: Decoder, mixtures: Mixtures = gaussians) => {
    const statistics = new VoiceStatistics();
    finish(listenTo([clip], statistics, { decoder, mixtures, lifter }));
    return statistics;
  };
  const total = ({ frames }: VoiceStatistics) => frames.reduce((sum, part) => sum + part, 0);

  it("counts at three scales, in which it is longer or shorter, clean and in two noises", () => {
    // Frames 30 to 60 are 31 to 62 where it is slowed to 0.97, and 29 to 58 at 1.03: 90 in all, three times over, in three streams.
    const heard = total(framesHeard(deaf(30, 60)));
    expect(heard / (90 * 3 * STREAMS)).toBeGreaterThan(0.97);
    expect(heard / (90 * 3 * STREAMS)).toBeLessThanOrEqual(1);
  });

  it("does not count where its words do not fit", () => {
    expect(total(framesHeard(deaf(0, 0)))).toBe(0);
  });

  it("goes to other densities where the means are others", () => {
    const first = (codebookOf("AH") ?? 0) * STREAMS * DENSITIES;
    const most = ({ frames }: VoiceStatistics) => {
      const parts = [...frames.subarray(first, first + DENSITIES)];
      return parts.indexOf(Math.max(...parts));
    };
    const plain = most(framesHeard(deaf(30, 60)));
    const other = (plain + 1) % DENSITIES;
    // The clip's features are all zero: the density whose mean is there hears it, and the one that did so is far off.
    const means = gaussians.means.slice();
    means.fill(0, (first + other) * WIDTH, (first + other + 1) * WIDTH);
    means.fill(1000, (first + plain) * WIDTH, (first + plain + 1) * WIDTH);
    expect(most(framesHeard(deaf(30, 60), gaussians.movedTo(means)))).not.toBe(plain);
  });
});

describe("sentences to learn from", () => {
  it("are let go when nobody asks for them, the oldest first", () => {
    const learner = new VoiceLearner();
    for (let turn = 0; turn < 60; turn += 1)
      learner.add({ pcm: new Float32Array(1600), rate: 16_000, warp: 1, words: String(turn) });
    const asked = new Set<string>();
    const deaf = {
      align: (_: Float32Array, words: string) => {
        asked.add(words);
        return [];
      },
    };
    finish(learner.learn({ decoder: deaf as unknown as Decoder, mixtures: gaussians, lifter: 22 }));
    expect([...asked]).toEqual(Array.from({ length: 24 }, (_, index) => String(index + 36)));
  });
});

describe("a voice that is kept", () => {
  const voice = () => voiceOf(2.5, (mean, stream) => [...mean].map((value) => value + stream));

  it("comes back within the steps it is kept in", () => {
    const { frames, sums } = voice();
    const back = unpack(keep({ frames, sums }, gaussians), gaussians) ?? new VoiceStatistics();
    expect(back.frames.every((heard, gaussian) => heard === frames[gaussian])).toBe(true);
    const apart = back.sums.map((sum, i) => Math.abs(sum - (sums[i] ?? 0)));
    expect(apart.reduce((most, one) => Math.max(most, one), 0)).toBeLessThan(2.5 / 128);
  });

  it.each<[string, (kept: string) => string]>([
    ["of another model", (kept) => `AAAA${kept.slice(4)}`],
    ["cut short", (kept) => kept.slice(0, -8)],
    ["that is empty", () => ""],
  ])("is not taken when it is one %s", (_, spoil) => {
    expect(unpack(spoil(keep(voice(), gaussians)), gaussians)).toBeUndefined();
  });
});
