// Commands of a word or two, alone: how badly each may fit and still be done. Figures are made by hand.
import { describe, expect, it } from "vitest";
import type { Evidence } from "../../../extractors/hearing/doubt/evidence.ts";
import type { Setting } from "../../../extractors/hearing/doubt/odd.ts";
import { judge, leadWanted } from "../../../extractors/hearing/doubt/verdict.ts";
import { type Heard, understand } from "../../../extractors/hearing/index.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { passOf } from "./passes.ts";

const KNOWN = { fitted: true };

function judged(text: string, strangeness: number, setting: Setting = KNOWN) {
  const winner = passOf(text, { command: true });
  const evidence: Evidence = { strangeness, unexplained: 0, struck: "no", words: [] };
  return judge({ winner, voters: [winner, winner], agreement: 1 }, evidence, 40, setting);
}

describe("a brief command that all passes hear", () => {
  it.each([
    ["is done though it is dear, as so short a sound is", "wrong", 450, "ok"],
    ["is asked about where more of it could fit and does not: talk was bent to it", "scratch that", 450, "doubtful"],
    ["the same of one long word", "finished", 410, "doubtful"],
    ["is done where it is as dear as a long one may be", "scratch that", 390, "ok"],
    ["is nothing where it is dearer than any", "wrong", 600, "nothing"],
    ["is done where it is a place that fits", "rod two", 310, "ok"],
    ["is not believed where it is a place that fits badly: it may have been another command", "rod two", 450, "strange"],
  ] as const)("%s", (_what, text, strangeness, verdict) => {
    expect(judged(text, strangeness)).toBe(verdict);
  });

  it("is done in a stranger's voice, whose commands all may be as dear", () => {
    expect(judged("scratch that", 450, {})).toBe("ok");
  });

  it("has no lead that speaks for it", () => {
    const lead = (verdict: "ok" | "strange") => leadWanted(passOf("rod two", { command: true }), verdict, 40, () => 40);
    expect(lead("ok")).toBe(0);
    expect(lead("strange")).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("a place or a step that was heard in doubt", () => {
  const heard = (text: string, verdict: Heard["verdict"]): Heard => ({
    text,
    seconds: 1,
    words: text.split(" ").map((word, at) => ({ word, start: 0.2 + at * 0.3, end: 0.5 + at * 0.3, trust: 1 })),
    doubt: { words: [], others: [], agreement: 1, strangeness: 450 },
    snr: 40,
    verdict,
    warp: 1,
  });

  it.each([
    ["rod two", "goto"],
    ["open bores", "step"],
  ])("is asked about, and not gone to: %s", (text, command) => {
    expect(understand(heard(text, "ok"), {}, DEMO_SPEC)).toMatchObject({ commands: [{ command }], questions: [] });
    expect(understand(heard(text, "doubtful"), {}, DEMO_SPEC)).toMatchObject({
      commands: [],
      questions: [{ code: "heard_unsure" }],
    });
  });
});
