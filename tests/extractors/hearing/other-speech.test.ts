// Talk that the grammar is bent to: heard against any other speech, it comes out as that, and what was said stays what it is.
import { beforeAll, describe, expect, it } from "vitest";
import { fliteVoice } from "../../../demo-data/voices.ts";
import type { Evidence } from "../../../extractors/hearing/doubt/evidence.ts";
import type { Setting } from "../../../extractors/hearing/doubt/odd.ts";
import { otherWouldBe } from "../../../extractors/hearing/doubt/other-speech.ts";
import { Decoder } from "../../../extractors/hearing/engine/decoder.ts";
import { otherSpeechFsg } from "../../../extractors/hearing/grammar/other-speech.ts";
import { resample } from "../../../extractors/hearing/index.ts";
import { isPhoneWord } from "../../../extractors/hearing/text.ts";
import { fullDictionary } from "../../../extractors/hearing/words/dictionary.ts";
import { openModel } from "./open-model.ts";
import { passOf } from "./passes.ts";

const KNOWN: Setting = { fitted: true };
const costing = (strangeness: number): Evidence => ({ strangeness, unexplained: 0, struck: "no", words: [] });

const BENT_TO = passOf("twelve tenths guide inlet two");
const READ_OUT = passOf("three eight seven five one");

describe("a sentence that would count is heard against any other speech", () => {
  it.each([
    ["where it fits badly in a voice that is known", BENT_TO, 300, KNOWN, 125],
    ["at a lower price where it is a read-out", READ_OUT, 300, KNOWN, 90],
    ["at a lower one still where it is about what is not open", READ_OUT, 300, { ...KNOWN, elsewhere: true }, 55],
    ["and where it hardly fits", BENT_TO, 360, KNOWN, 55],
    ["but not where hardly anything can fit", passOf("two thou"), 360, KNOWN, 125],
    ["not where it fits well", BENT_TO, 200, KNOWN, undefined],
    ["not where the voice is a stranger's, and all fits badly", BENT_TO, 300, {}, undefined],
    ["not as a command, which is dear in every voice", passOf("wrong", { command: true }), 300, KNOWN, undefined],
    ["not as a free note, which is other speech", passOf("note"), 300, KNOWN, undefined],
  ] as const)("%s", (_where, whole, strangeness, setting, dearer) => {
    expect(otherWouldBe(whole, costing(strangeness), setting)).toBe(dearer);
  });
});

const SAID = ["three eight seven", "forty foot pounds", "one and a half"] as const;
/** What is said, and what a grammar that has nothing nearer would take it for. */
const BENT = [
  ["twelve inch pipe wrench", "twelve tenths guide inlet two"],
  ["one and a half pints of oil", "one and a half crankpin four"],
  ["three or four of them", "three or four tenths"],
] as const;

/** In a voice that the model is not fitted to, sounds of speech lead the wrong words by less than in one that it is. */
const BETTER = 60;

describe("the sound of a voice", () => {
  let decoder: Decoder;
  const sounds = new Map<string, Float32Array>();
  beforeAll(async () => {
    const { engine } = await openModel();
    decoder = new Decoder(engine, fullDictionary(), engine.hold(undefined));
    for (const text of [...SAID, ...BENT.map(([said]) => said)]) {
      const { pcm, rate } = await fliteVoice("rms").say(text);
      sounds.set(text, resample(pcm, rate, 16_000));
    }
  });

  const heard = (said: string, words: string, dearer: number) => {
    decoder.setGrammar(otherSpeechFsg(words.split(" "), dearer));
    return decoder.decode(sounds.get(said) ?? new Float32Array(0)).words.map(({ word }) => word);
  };

  it.each(SAID)('that says "%s" stays that', (said) => {
    expect(heard(said, said, BETTER).join(" ")).toBe(said);
  });

  it.each(BENT)('that says "%s" is not "%s"', (said, words) => {
    const other = heard(said, words, BETTER);
    expect(other.some(isPhoneWord)).toBe(true);
    // What was said of it stays: other speech stands for the words that were not.
    expect(other[0]).toBe(words.split(" ")[0]);
  });

  it("is taken for the words whatever it is, where other speech costs too much", () => {
    for (const [said, words] of BENT) expect(heard(said, words, 400).join(" ")).toBe(words);
  });
});
