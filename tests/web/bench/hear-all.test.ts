// A sentence is heard among all that can be said before it is looked for in what is open.
import { describe, expect, it } from "vitest";
import type { Heard, HearOptions } from "../../../extractors/hearing/index.ts";
import { parse } from "../../../extractors/speech/index.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { hearAll } from "../../../web/bench/hear-all.ts";

const heardAs = (text: string, verdict: Heard["verdict"]): Heard => ({
  text,
  seconds: 2,
  words: [],
  doubt: { words: [], others: [], agreement: 1, strangeness: 0 },
  snr: 30,
  verdict,
  warp: 1,
});

const OPTIONS: HearOptions = {
  spec: DEMO_SPEC,
  context: { quantity: "bearing_clearance", place: { main: 2 }, step: "main_bearings" },
};

/** An ear that hears one thing with nothing open and another with the step open. */
function ear(open: Heard, near: Heard) {
  const asked: boolean[] = [];
  return {
    asked,
    hear: async (_pcm: Float32Array, _rate: number, { context, spec }: HearOptions) => {
      const focused = context.quantity !== undefined || context.step !== undefined;
      asked.push(focused);
      const heard = focused ? near : open;
      return { heard, parsed: parse(heard.text, context, spec) };
    },
  };
}

const pcm = new Float32Array(1);

describe("hearing at an open step", () => {
  it("takes a sentence about something else for what it is", async () => {
    const one = ear(heardAs("crank end float nine thou", "ok"), heardAs("crankpin four, oh oh nine zero", "ok"));
    const { heard, parsed } = await hearAll(one, pcm, 16_000, OPTIONS);
    expect(heard.text).toBe("crank end float nine thou");
    expect(parsed.readings[0]).toMatchObject({ quantity: "crank_end_float", value: 0.009 });
    expect(one.asked).toEqual([false]);
  });

  it("looks for a bare value in what is open", async () => {
    const one = ear(heardAs("", "nothing"), heardAs("two thou", "ok"));
    const { parsed } = await hearAll(one, pcm, 16_000, OPTIONS);
    expect(parsed.readings[0]).toMatchObject({ quantity: "bearing_clearance", place: { main: 2 }, value: 0.002 });
    expect(one.asked).toEqual([false, true]);
  });

  it("keeps the doubt of the whole when what is open is no surer", async () => {
    const one = ear(heardAs("ring gap two top, nine thou", "doubtful"), heardAs("main two, nine thou", "doubtful"));
    const { heard, parsed } = await hearAll(one, pcm, 16_000, OPTIONS);
    expect(heard.text).toBe("ring gap two top, nine thou");
    expect(parsed.readings.every((reading) => reading.do === "confirm")).toBe(true);
  });
});
