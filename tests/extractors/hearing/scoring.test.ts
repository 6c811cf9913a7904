// How closely the decoders hold sound against the model: what they hear and what it costs, against the model as it is meant to be used.
import { beforeAll, describe, expect, it } from "vitest";
import { fliteVoice } from "../../../demo-data/voices.ts";
import { Bank } from "../../../extractors/hearing/engine/bank.ts";
import { Decoder } from "../../../extractors/hearing/engine/decoder.ts";
import type { Engine } from "../../../extractors/hearing/engine/engine.ts";
import { GAUSSIANS } from "../../../extractors/hearing/engine/gaussians.ts";
import { leanFiles } from "../../../extractors/hearing/engine/lean.ts";
import type { GaussianFiles } from "../../../extractors/hearing/engine/model.ts";
import { CLOSE, LIGHT, type Scoring } from "../../../extractors/hearing/engine/scoring.ts";
import { NARROW, PATIENT, type Search, WIDE } from "../../../extractors/hearing/engine/search.ts";
import { resample } from "../../../extractors/hearing/index.ts";
import { openModel } from "./open-model.ts";

const DICTIONARY = "one W AH N\ntwo T UW\nthree TH R IY\nfive F AY V\nnine N AY N\n";
const WORDS = ["one", "two", "three", "five", "nine"];
const GRAMMAR = `FSG_BEGIN g\nNUM_STATES 1\nSTART_STATE 0\nFINAL_STATE 0\n${WORDS.map((word) => `TRANSITION 0 0 0.2 ${word}\n`).join("")}FSG_END\n`;
const SENTENCES = ["three nine one", "two five two", "nine three five one", "one two three"];

let engine: Engine;
let lean: GaussianFiles;
let spoken: readonly Float32Array[];
beforeAll(async () => {
  const { gaussians, ...opened } = await openModel();
  engine = opened.engine;
  lean = leanFiles(gaussians, gaussians.means, new Float64Array(GAUSSIANS));
  const voice = fliteVoice("rms");
  const said = await Promise.all(SENTENCES.map((text) => voice.say(text)));
  spoken = said.map(({ pcm, rate }) => resample(pcm, rate, 16_000));
});

function heardBy(decoder: Decoder): readonly { readonly text: string; readonly cost: number }[] {
  decoder.setGrammar(GRAMMAR);
  return spoken.map((pcm) => {
    const { words } = decoder.decode(pcm);
    return { text: words.map(({ word }) => word).join(" "), cost: words.reduce((sum, { cost }) => sum + cost, 0) };
  });
}

function heardWith(scoring: Scoring, files?: GaussianFiles, search?: Search): ReturnType<typeof heardBy> {
  const held = engine.hold(files);
  const decoder = new Decoder(engine, DICTIONARY, held, scoring, search);
  const heard = heardBy(decoder);
  decoder.close();
  engine.letGo(held);
  return heard;
}

const costs = (heard: ReturnType<typeof heardBy>) => heard.map(({ cost }) => Math.round(cost));

describe("a decoder that counts fewer densities in a frame", () => {
  it("hears the same words, and counts what they cost as a close one does", () => {
    const [close, light] = [heardWith(CLOSE), heardWith(LIGHT)];
    expect(close.map(({ text }) => text)).toEqual(SENTENCES);
    expect(light.map(({ text }) => text)).toEqual(SENTENCES);
    const total = (heard: typeof close) => heard.reduce((sum, { cost }) => sum + cost, 0);
    expect(total(light) / total(close)).toBeGreaterThan(0.95);
    expect(total(light) / total(close)).toBeLessThan(1.05);
    // It is another decode all the same: the setting does reach the library.
    expect(costs(light)).not.toEqual(costs(close));
  });

  it("is what a voice gets that the model is fitted to, and no stranger", () => {
    const bank = new Bank(engine, DICTIONARY);
    expect(costs(heardBy(bank.decoder("near")))).toEqual(costs(heardWith(CLOSE, undefined, WIDE)));
    bank.reopen(lean);
    for (const role of ["near", "small"] as const)
      expect(costs(heardBy(bank.decoder(role)))).toEqual(costs(heardWith(LIGHT, lean, PATIENT)));
    bank.reopen(undefined);
    expect(costs(heardBy(bank.decoder("small")))).toEqual(costs(heardWith(CLOSE, undefined, PATIENT)));
    bank.close();
  });
});

describe("a decoder that searches less widely", () => {
  it("hears the same words where they are said clearly", () => {
    for (const search of [NARROW, PATIENT]) {
      const heard = heardWith(LIGHT, lean, search);
      expect(heard.map(({ text }) => text)).toEqual(SENTENCES);
      // The setting does reach the library.
      expect(costs(heard)).not.toEqual(costs(heardWith(LIGHT, lean, WIDE)));
    }
  });

  it("is narrow by another setting than it is patient by", () => {
    expect(costs(heardWith(LIGHT, lean, NARROW))).not.toEqual(costs(heardWith(LIGHT, lean, PATIENT)));
  });

  it("is patient with words in any order, and wide with those that are known", () => {
    const bank = new Bank(engine, DICTIONARY);
    bank.reopen(lean);
    expect(costs(heardBy(bank.decoder("known")))).toEqual(costs(heardWith(LIGHT, lean, WIDE)));
    expect(costs(heardBy(bank.decoder("outline")))).toEqual(costs(heardWith(LIGHT, lean, PATIENT)));
    bank.close();
  });

  it("is narrow in noise in a voice that is known, and is not opened before there is any", () => {
    const bank = new Bank(engine, DICTIONARY);
    for (const of of ["near", "small"] as const) expect(bank.roleFor(of, true)).toBe(of);
    bank.reopen(lean);
    const narrow = costs(heardWith(LIGHT, lean, NARROW));
    for (const of of ["near", "small"] as const) {
      expect(bank.roleFor(of, false)).toBe(of);
      const role = bank.roleFor(of, true);
      expect(bank.isOpen(role)).toBe(false);
      expect(costs(heardBy(bank.decoder(role)))).toEqual(narrow);
      expect(bank.isOpen(role)).toBe(true);
    }
    bank.close();
  });
});
