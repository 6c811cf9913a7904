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

  // The contract for outside checks: id, inputs with their units, value and unit. Each value by hand or from a handbook.
  it.each([
    // 28 + 45
    ["valve-timing intake-opens=28deg exhaust-closes=45deg", 73, "deg", 0],
    // .003 - (-.002)
    ["clock-runout readings=0in,0.003in,-0.002in,0.003in", 0.005, "in", 0],
    // Shigley, 9th ed., Table 8-1
    ["metric-stress-area diameter=8mm pitch=1.25mm", 36.6, "mm2", 0.05],
    // 2 (621.5 + 45 / 2)
    ["bobweight rotating=621.5g reciprocating=45g rods=2", 1288, "g", 0],
    // .037^4 x 11.85e6 / (8 x .4005^3 x 10.5)
    ["spring-rate wire=0.037in outside-diameter=0.4375in active=10.5 modulus=11.85Mpsi", 4.1156, "lbf_per_in", 1e-3],
    // 11.25 - 2.25 cos 20 - sqrt(81 - (2.25 sin 20)^2), by a pocket calculator
    ["piston-travel throw=2.25in rod=9in angle=20deg", 0.16865, "in", 1e-5],
    // a quarter of the pitch
    ["torque-angle angle=90deg pitch=1.5mm", 0.375, "mm", 0],
  ] as const)("%s is %d %s", async (line, value, unit, off) => {
    const { out } = capture();
    const [id, ...pairs] = line.split(" ");
    expect(await run([id, pairs], {})).toBe(0);
    const printed = JSON.parse(out.join(""));
    expect(Math.abs(printed.value - value)).toBeLessThanOrEqual(off);
    expect(printed.unit).toBe(unit);
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
    [["displacement", ["bore=3", "stroke=4in", "cylinders=4"]], "missing_unit"],
    [["displacement", ["bore=-3in", "stroke=4in", "cylinders=4"]], "out_of_domain"],
    [["capability", ["resolution=0in", "low=0in", "high=1in"]], "out_of_domain"],
    [["castle-nut", ["short=-1deg", "threads-per-inch=24"]], "out_of_domain"],
  ])("%j is refused as %s with exit code 2 and nothing on standard output", async (args, code) => {
    const { out, err } = capture();
    expect(await run(args, {})).toBe(2);
    expect(out).toEqual([]);
    expect(err.join("")).toMatch(new RegExp(`^${code}: Expected .+\\n$`));
  });
});
