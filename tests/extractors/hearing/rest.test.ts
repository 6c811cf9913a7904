// What the ear does when nobody waits: learning is told of in voice.test.ts; here, the large grammar.
import createModule from "soundswallower";
import { afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { Ear } from "../../../extractors/hearing/ear.ts";
import { Decoder } from "../../../extractors/hearing/engine/decoder.ts";
import type { EngineFactory } from "../../../extractors/hearing/engine/module.ts";
import { buildGrammar } from "../../../extractors/hearing/grammar/index.ts";
import { readModelFile } from "../../../extractors/hearing/node/index.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

let ear: Ear;
beforeAll(async () => {
  ear = await Ear.open(createModule as unknown as EngineFactory, readModelFile);
});
afterEach(() => vi.restoreAllMocks());

describe("an ear that nobody waits for", () => {
  it("sets the large grammar once while something is open, whichever step that is", () => {
    const set = vi.spyOn(Decoder.prototype, "setGrammar");
    expect(ear.rest()).toBe("idle");
    ear.prepare({ spec: DEMO_SPEC, context: {} });
    ear.rest();
    const large = buildGrammar(DEMO_SPEC, {}, "all").fsg;
    expect(set.mock.calls.map(([fsg]) => fsg === large)).toEqual([false]);
    ear.prepare({ spec: DEMO_SPEC, context: { step: "rings" } });
    for (let turn = 0; turn < 3; turn += 1) expect(ear.rest()).toBe("idle");
    expect(set.mock.calls.map(([fsg]) => fsg === large)).toEqual([false, false, true]);
    ear.prepare({ spec: DEMO_SPEC, context: { step: "bores" } });
    ear.rest();
    expect(set.mock.calls.map(([fsg]) => fsg === large)).toEqual([false, false, true, false]);
  });
});
