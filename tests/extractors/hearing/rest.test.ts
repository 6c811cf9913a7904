// Which grammars the ear sets, and when: before anything is said, and not what is large. Learning is told of in voice.test.ts.
import createModule from "soundswallower";
import { afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { Ear } from "../../../extractors/hearing/ear.ts";
import { Decoder } from "../../../extractors/hearing/engine/decoder.ts";
import type { EngineFactory } from "../../../extractors/hearing/engine/module.ts";
import { buildGrammar } from "../../../extractors/hearing/grammar/index.ts";
import { outlineFsg } from "../../../extractors/hearing/grammar/outline.ts";
import { readModelFile } from "../../../extractors/hearing/node/index.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

let ear: Ear;
beforeAll(async () => {
  ear = await Ear.open(createModule as unknown as EngineFactory, readModelFile);
});
afterEach(() => vi.restoreAllMocks());

describe("an ear that is prepared", () => {
  it("sets what is open each time, sentences in outline once, and never everything", () => {
    const set = vi.spyOn(Decoder.prototype, "setGrammar");
    const outline = outlineFsg(buildGrammar(DEMO_SPEC, {}, "all").start, DEMO_SPEC);
    const near = (step: "rings" | "bores") => buildGrammar(DEMO_SPEC, { step }, "near").fsg;
    const [rings, bores] = [near("rings"), near("bores")];
    ear.prepare({ spec: DEMO_SPEC, context: { step: "rings" } });
    ear.prepare({ spec: DEMO_SPEC, context: { step: "rings" } });
    ear.prepare({ spec: DEMO_SPEC, context: { step: "bores" } });
    expect(ear.rest()).toBe("idle");
    expect(set.mock.calls.map(([fsg]) => [outline, rings, bores].indexOf(fsg))).toEqual([1, 0, 2]);
  });
});
