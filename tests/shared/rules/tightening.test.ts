// Nuts of a joint stage by stage: all round at one before the next, in the sheet's order (common practice, no source).
import { describe, expect, it } from "vitest";
import { EXAMPLES } from "../../../shared/spec/examples/index.ts";
import { nonsenseIn } from "../../../shared/spec/sense.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { BenchLog } from "./bench-log.ts";

const head = EXAMPLES.six.fasteners.head as NonNullable<Spec["fasteners"]["head"]>;
const withHead = (change: Partial<typeof head>): Spec => ({
  ...EXAMPLES.six,
  fasteners: { ...EXAMPLES.six.fasteners, head: { ...head, ...change } },
});
const ORDERED = withHead({ order: [5, 6, 4, 7] });

type Pull = readonly [nut: number, stage: number | string | undefined, value: number];
function said(spec: Spec, pulls: readonly Pull[]) {
  const log = new BenchLog(spec);
  for (const [nut, stage, value] of pulls)
    log.read("fastener_torque", { fastener: "head", nut, ...(stage === undefined ? {} : { stage }) }, value);
  return { log, tightening: log.of("tightening").map(({ verdict, why }) => [verdict, why]) };
}

describe("the head's nuts", () => {
  it("in the sheet's order, stage after stage, are good; the last stage may be called final", () => {
    const { log, tightening } = said(ORDERED, [
      ...[5, 6, 4, 7].map((nut): Pull => [nut, 1, 20]),
      ...[5, 6, 4, 7].map((nut): Pull => [nut, 2, 38]),
      ...[5, 6, 4, 7].map((nut): Pull => [nut, "final", 52]),
    ]);
    expect(tightening.map(([verdict]) => verdict)).toEqual(["pass", "pass", "pass"]);
    // Each nut at each stage stands by itself: a second pass writes over nothing.
    expect([...log.fold().readings.values()].every(({ status }) => status === "counted")).toBe(true);
    expect(log.of("torque").every(({ verdict }) => verdict === "pass")).toBe(true);
  });

  it.each([
    [
      "one before its turn",
      [
        [5, 1, 20],
        [4, 1, 20],
        [6, 1, 20],
      ],
      "nut 4 was pulled before nut 6; the sheet's order is 5, 6, 4, 7",
    ],
    [
      "one that missed a stage",
      [
        [5, 1, 20],
        [5, 2, 38],
        [6, 2, 38],
      ],
      "nut 6 went to stage 2 before stage 1",
    ],
    [
      "one that came to the first stage after the second",
      [
        [5, 1, 20],
        [6, 2, 38],
        [6, 1, 20],
      ],
      "nut 6 went to stage 2 before stage 1",
    ],
  ] as const)("%s is told", (_what, pulls, why) => {
    const { tightening } = said(ORDERED, pulls);
    expect(tightening.filter(([verdict]) => verdict === "warn").map(([, text]) => text)).toEqual([expect.stringContaining(why)]);
  });

  it("pulled again, hot or cold, change no order", () => {
    const pulls: Pull[] = [5, 6, 4, 7].map((nut) => [nut, 1, 20]);
    expect(said(ORDERED, [...pulls, [7, 1, 20], [5, 1, 20]]).tightening.map(([verdict]) => verdict)).toEqual(["pass"]);
    expect(said(ORDERED, [...pulls, [7, "hot", 52], [5, "hot", 52]]).tightening.map(([verdict]) => verdict)).toEqual(["pass"]);
  });

  it("without an order on the sheet are held to their stages alone, and where only the last was said, to nothing", () => {
    expect(
      said(EXAMPLES.six, [
        [1, 3, 52],
        [2, 3, 52],
      ]).tightening,
    ).toEqual([]);
    expect(
      said(EXAMPLES.six, [
        [2, 2, 38],
        [1, 2, 38],
        [1, 3, 52],
        [2, 3, 52],
      ]).tightening.map(([verdict]) => verdict),
    ).toEqual(["pass"]);
  });

  it("a nut twice in the order is refused", () => {
    expect(nonsenseIn(withHead({ order: [5, 6, 5] }))).toMatchObject([
      { say: "Expected each nut once in the order, got 5 again" },
    ]);
  });
});
