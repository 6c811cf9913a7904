// The compute command: what goes to standard output, what to standard error, and the exit code.
import { afterEach, describe, expect, it, vi } from "vitest";
import { run } from "../../../server/cli/commands/compute.ts";

function capture() {
  const out: string[] = [];
  const err: string[] = [];
  vi.spyOn(process.stdout, "write").mockImplementation((text) => out.push(String(text)) > 0);
  vi.spyOn(process.stderr, "write").mockImplementation((text) => err.push(String(text)) > 0);
  return { out, err };
}

afterEach(() => vi.restoreAllMocks());

describe("thoubook compute", () => {
  it("prints one JSON object with value, unit, formula and source", async () => {
    const { out, err } = capture();
    expect(await run(["ring-gap-limit", ["bore=3.905in", "per-inch=.0035"]], {})).toBe(0);
    expect(err).toEqual([]);
    const printed = JSON.parse(out.join(""));
    expect(Object.keys(printed)).toEqual(["id", "inputs", "value", "unit", "rounded", "formula", "source"]);
    expect(printed).toMatchObject({
      id: "ring-gap-limit",
      inputs: { bore: "3.905in", "per-inch": ".0035" },
      value: 0.0136675,
      unit: "in",
      rounded: "0.0137 in",
    });
  });

  it("lists every computation, one JSON object a line", async () => {
    const { out } = capture();
    expect(await run([undefined, []], { list: true })).toBe(0);
    const rows = out
      .join("")
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    const wanted = [
      "displacement",
      "compression-ratio",
      "piston-to-head",
      "ring-gap-limit",
      "ring-gap-change",
      "bore-form",
      "temperature-correction",
      "shim-clearance",
      "castle-nut",
      "preload",
      "extension",
      "convert",
      "tolerance-grade",
      "next-oversize",
      "conformance",
      "cross-hatch",
    ];
    expect(rows.map((row) => row.id)).toEqual(expect.arrayContaining(wanted));
    for (const row of rows)
      expect(row).toMatchObject({ formula: expect.any(String), source: expect.any(String), inputs: expect.any(Array) });
  });

  it.each([
    [[undefined, []], "missing_id"],
    [["nothing", []], "unknown_computation"],
    [["displacement", ["bore=3"]], "missing_input"],
    [["displacement", ["bore=three", "stroke=4", "cylinders=4"]], "bad_number"],
  ])("%j is refused as %s with exit code 2 and nothing on standard output", async (args, code) => {
    const { out, err } = capture();
    expect(await run(args, {})).toBe(2);
    expect(out).toEqual([]);
    expect(err.join("")).toMatch(new RegExp(`^${code}: Expected .+\\n$`));
  });
});
