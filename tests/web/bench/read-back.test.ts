// What is said back: figures as a machinist says them, the verdict, and what is asked.
import { describe, expect, it } from "vitest";
import { logUtterance } from "../../../extractors/bench/index.ts";
import { parse } from "../../../extractors/speech/index.ts";
import { apply, contextOf, openBuild } from "../../../shared/build/index.ts";
import { evaluate } from "../../../shared/rules/index.ts";
import { type ReadBack, readBackOutcome } from "../../../web/bench/read-back.ts";
import { opened, testStamp } from "../../support/events.ts";

const said = (...texts: string[]): string[] => answers(...texts).map(({ text }) => text);

function answers(...texts: string[]): ReadBack[] {
  const stamp = testStamp();
  const build = openBuild(opened(stamp));
  return texts.map((text) => {
    const parsed = parse(text, contextOf(build, stamp.device), build.spec);
    const { events, say } = logUtterance({ parsed, build, stamp, heard: { by: "typed" } });
    for (const event of events) apply(build, event);
    return readBackOutcome({ parsed, events, say }, build, evaluate(build));
  });
}

describe("answers", () => {
  it("says place, figure and verdict", () => {
    const [good, out] = said("ring gap two top, thirteen thou", "ring gap three top, nine thou");
    expect(good).toBe("two top, thirteen thou, good");
    expect(out).toBe("three top, nine thou, out; minimum 11.6");
  });

  it("says the bound that a good figure stands close to", () => {
    // A bore bored .030 over: .003 in of gap an inch of 3.9051 is .01172 in (common practice, no source).
    const [, near] = said("bore two middle axial, three nine oh five one", "ring gap number two top, twelve thou");
    expect(near).toBe("two top, twelve thou, good; minimum 11.7");
  });

  it("says the new figure after a correction", () => {
    expect(said("ring gap two top, nine thou", "no, make it thirteen thou")[1]).toBe("two top, thirteen thou, good");
  });

  it.each([
    ["rod three side", "rod three, side clearance. What is the figure?", { asked: "rod_side_clearance" }],
    ["bore two top thrust", "two top thrust, bore. What is the figure?", { asked: "bore_diameter" }],
    ["end float", "end float. What is the figure?", { asked: "crank_end_float" }],
    ["gap", "What is the figure?", {}],
  ])("asks for the figure that was not said, but only where nobody goes on: %s", (words, text, of) => {
    expect(answers(words)).toEqual([{ text, mood: "question", later: true, ...of }]);
  });

  it("asks at once what will not be said by itself", () => {
    const [which] = answers("clearance two thou");
    expect(which?.mood).toBe("question");
    expect(which?.later).toBeUndefined();
  });

  it("tells the words that were not understood", () => {
    expect(said("ring gap two top twelve thou hot")[0]).toMatch(/Not understood: hot$/);
    expect(said("rear main end float six thou")[0]).toBe(
      "end float, six thou, some words were not read. Yes or no? Not understood: rear, main",
    );
  });

  it("says what a command did, and nothing to talk", () => {
    expect(said("ring gap two top, thirteen thou", "scratch that")[1]).toBe("struck");
    expect(said("hand me that rag would you")[0]).toBe("");
  });
});
