// The model with the densities that a voice makes use of: its definition against what another program reads in it, its files against
// the library that loads them, and what it hears against the whole model.
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { fliteVoice } from "../../../demo-data/voices.ts";
import { Bank } from "../../../extractors/hearing/engine/bank.ts";
import { Decoder } from "../../../extractors/hearing/engine/decoder.ts";
import { codebooksOf } from "../../../extractors/hearing/engine/definition.ts";
import type { Engine } from "../../../extractors/hearing/engine/engine.ts";
import {
  codebookOf,
  DENSITIES,
  GAUSSIANS,
  type Gaussians,
  STREAMS,
  WIDTH,
} from "../../../extractors/hearing/engine/gaussians.ts";
import { leanFiles, mostUsed } from "../../../extractors/hearing/engine/lean.ts";
import type { GaussianFiles, Model } from "../../../extractors/hearing/engine/model.ts";
import type { EngineModule } from "../../../extractors/hearing/engine/module.ts";
import { numbersOf } from "../../../extractors/hearing/engine/parameters.ts";
import { resample } from "../../../extractors/hearing/index.ts";
import { openModel } from "./open-model.ts";

let model: Model;
let gaussians: Gaussians;
let module: EngineModule;
let engine: Engine;
beforeAll(async () => {
  ({ model, gaussians, module, engine } = await openModel());
});

const DICTIONARY = "one W AH N\ntwo T UW\nnine N AY N\n";
const GRAMMAR =
  "FSG_BEGIN g\nNUM_STATES 2\nSTART_STATE 0\nFINAL_STATE 1\nTRANSITION 0 1 1.0 one\nTRANSITION 0 1 1.0 two\nTRANSITION 0 1 1.0 nine\nFSG_END\n";
const GROUPS = GAUSSIANS / DENSITIES;

describe("the model's definition", () => {
  // Rows of what another program prints of the same file: pocketsphinx_mdef_convert -text mdef mdef.txt, of Debian's pocketsphinx
  // 0.8+5prealpha+1-15: base phone, its neighbours and place in the word, numbers of its three senones.
  const ROWS: readonly (readonly [string, string, readonly number[]])[] = [
    ["AA", "whatever its neighbours", [6, 7, 8]],
    ["AE", "whatever its neighbours", [9, 10, 11]],
    ["CH", "whatever its neighbours", [27, 28, 29]],
    ["D", "CH AE s", [1272, 1297, 1342]],
    ["IY", "AO B s", [2610, 2677, 2718]],
    ["OW", "K EY e", [3625, 3702, 3724]],
    ["TH", "Z UH b", [4574, 4581, 4602]],
  ];
  it.each(ROWS)("has the senones of %s (%s) in that phone's codebook", (phone, _between, senones) => {
    const codebooks = codebooksOf(model.files.mdef);
    expect(codebooks.length).toBe(5126);
    expect(senones.map((senone) => codebooks[senone])).toEqual(senones.map(() => codebookOf(phone)));
  });

  it("is refused when it is cut short", () => {
    expect(() => codebooksOf(model.files.mdef.subarray(0, 2_000_000))).toThrow("Expected a definition");
  });
});

describe("the densities that are kept", () => {
  it("are those that heard a voice, whatever the model has them for", () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.nat(DENSITIES - 1), { minLength: 64, maxLength: 64 }), fc.nat(GROUPS - 1), (heard, group) => {
        const frames = new Float64Array(GAUSSIANS);
        for (const density of heard) frames[group * DENSITIES + density] = 100;
        expect(mostUsed(frames, gaussians)[group]).toEqual([...heard].sort((one, other) => one - other));
      }),
      { numRuns: 10 },
    );
  });

  it("are those of most weight in the phone's own states where nothing was heard", () => {
    const kept = mostUsed(new Float64Array(GAUSSIANS), gaussians);
    expect(kept.length).toBe(GROUPS);
    const phone = codebookOf("IY") ?? 0;
    const shareOf = (density: number) =>
      [0, 1, 2].reduce((sum, state) => sum + Math.exp(gaussians.logWeight(1, density, phone * 3 + state)), 0);
    const group = kept[phone * STREAMS + 1] ?? [];
    const least = Math.min(...group.map(shareOf));
    const others = Array.from({ length: DENSITIES }, (_, density) => density).filter((density) => !group.includes(density));
    expect(group.length + others.length).toBe(DENSITIES);
    expect(Math.max(...others.map(shareOf))).toBeLessThanOrEqual(least);
  });
});

describe("a lean model", () => {
  const heard = async (files: GaussianFiles | undefined, said: string) => {
    const { pcm, rate } = await fliteVoice("rms").say(said);
    const held = engine.hold(files);
    const decoder = new Decoder(engine, DICTIONARY, held);
    decoder.setGrammar(GRAMMAR);
    const { words } = decoder.decode(resample(pcm, rate, 16_000));
    decoder.close();
    engine.letGo(held);
    return words.map(({ word }) => word).join(" ");
  };

  it("holds the numbers of the densities that it keeps, in their order", () => {
    const frames = new Float64Array(GAUSSIANS);
    const group = (codebookOf("N") ?? 0) * STREAMS + 2;
    for (let density = 1; density < DENSITIES; density += 2) frames[group * DENSITIES + density] = 100;
    const moved = gaussians.means.map((mean) => mean + 1);
    const { means, variances } = leanFiles(gaussians, moved, frames);
    const count = GROUPS * 64 * WIDTH;
    const rowOf = (numbers: Float32Array, density: number) => [...numbers.subarray(density * WIDTH, (density + 1) * WIDTH)];
    for (const index of [0, 5, 63]) {
      const [at, from] = [group * 64 + index, group * DENSITIES + 2 * index + 1];
      expect(rowOf(numbersOf(means, count), at)).toEqual(rowOf(moved, from));
      expect(rowOf(numbersOf(variances, count), at)).toEqual(rowOf(numbersOf(model.files.variances, GAUSSIANS * WIDTH), from));
    }
  });

  it.each(["one", "two", "nine"])("hears %s as the whole model does", async (said) => {
    const lean = leanFiles(gaussians, gaussians.means, new Float64Array(GAUSSIANS));
    expect(await heard(undefined, said)).toBe(said);
    expect(await heard(lean, said)).toBe(said);
  });

  it("leaves nothing behind when the decoders are opened with another", () => {
    const bank = new Bank(engine, DICTIONARY);
    const files = leanFiles(gaussians, gaussians.means, new Float64Array(GAUSSIANS));
    for (let turn = 0; turn < 3; turn += 1) bank.reopen(files);
    const before = module.HEAPU8.length;
    for (let turn = 0; turn < 40; turn += 1) bank.reopen(turn % 2 === 0 ? files : undefined);
    expect(module.HEAPU8.length).toBe(before);
    bank.close();
  });
});
