// What is said back: figures as a machinist says them, the verdict, and what is asked.
import { describe, expect, it } from "vitest";
import { logUtterance } from "../../../extractors/bench/index.ts";
import { parse } from "../../../extractors/speech/index.ts";
import { apply, contextOf, openBuild } from "../../../shared/build/index.ts";
import { evaluate } from "../../../shared/rules/index.ts";
import { readBackOutcome, sayFigure, shiftThree } from "../../../web/bench/read-back.ts";
import { opened, reading, testStamp } from "../../support/events.ts";

describe("figures as said", () => {
  it.each([
    ["12", "0.012"],
    ["12.0", "0.0120"],
    ["11.7", "0.0117"],
    ["0.3", "0.0003"],
    ["250", "0.25"],
    ["1.50", "0.00150"],
  ])("%s thou for %s in", (thou, digits) => {
    expect(shiftThree(digits)).toBe(thou);
  });

  it("says thou below an inch and digits above", () => {
    expect(sayFigure(reading("ring_end_gap", { cylinder: 2, ring: "top" }, "0.012"))).toBe("12 thou");
    expect(sayFigure(reading("bore_diameter", { cylinder: 2 }, "3.8841"))).toBe("3.8841 inches");
  });

  it("says loose and tight instead of a sign", () => {
    expect(sayFigure(reading("pin_fit_bush", { cylinder: 1 }, "0.0004"))).toBe("0.4 thou loose");
    expect(sayFigure(reading("pin_fit_boss", { cylinder: 1 }, "-0.0002"))).toBe("0.2 thou tight");
  });
});

function said(...texts: string[]): string[] {
  const stamp = testStamp();
  const build = openBuild(opened(stamp));
  return texts.map((text) => {
    const parsed = parse(text, contextOf(build, stamp.device), build.spec);
    const { events, say } = logUtterance({ parsed, build, stamp, heard: { by: "typed" } });
    for (const event of events) apply(build, event);
    return readBackOutcome({ parsed, events, say }, build, evaluate(build)).text;
  });
}

describe("answers", () => {
  it("says place, figure and verdict", () => {
    const [good, out] = said("ring gap two top, thirteen thou", "ring gap three top, nine thou");
    expect(good).toMatch(/^cylinder 2, top ring, 13 thou, good; /);
    expect(out).toMatch(/^cylinder 3, top ring, 9 thou, out; /);
  });

  it("says the new figure after a correction", () => {
    expect(said("ring gap two top, nine thou", "no, make it thirteen thou")[1]).toMatch(/^cylinder 2, top ring, 13 thou, good/);
  });

  it("says what a command did, and nothing to talk", () => {
    expect(said("ring gap two top, thirteen thou", "scratch that")[1]).toBe("struck");
    expect(said("hand me that rag would you")[0]).toBe("");
  });
});
