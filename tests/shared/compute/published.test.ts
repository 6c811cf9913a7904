// Every computation against values that others published. The publication stands beside each figure; "memory" marks a figure
// recalled and not read again; "geometry" marks one that follows from the definition and that no publication is needed for.
import { describe, expect, it } from "vitest";
import { COMPUTATIONS } from "../../../shared/compute/registry.ts";
import { figureOf, partOf } from "./ask.ts";
import { PARTS } from "./published/parts.ts";
import { CASES, rows, table } from "./published/table.ts";

describe.each(Object.entries(CASES))("%s", (_id, cases) => {
  it.each(cases)("%s", (_source, ask, value, tolerance) => {
    expect(Math.abs(figureOf(ask) - value)).toBeLessThanOrEqual(tolerance);
  });
});

describe("answers in named parts", () => {
  it.each(PARTS.map((row) => [row[0], row] as const))("%s", (_source, [, ask, part, value, tolerance = 0]) => {
    const got = partOf(ask, part);
    if (typeof value !== "number") expect(got).toBe(value);
    else expect(Math.abs(Number(got) - value)).toBeLessThanOrEqual(tolerance + 1e-10 * Math.abs(value) + 1e-12);
  });
});

describe("every computation", () => {
  it.each(COMPUTATIONS.map((row) => [row.id, row] as const))(
    "%s has a published or stated check, a formula and a source",
    (id, row) => {
      const checked = new Set([...Object.values(CASES).flat(), ...PARTS].map(([, ask]) => ask.split(" ")[0]));
      expect(checked).toContain(id);
      expect(row.formula).not.toBe("");
      expect(row.source).not.toBe("");
    },
  );
});

describe("wrong publications are not followed", () => {
  it("a knowledge test explains 200 cubic inches with 8.5 in of block depth as the stroke: that gives twice as much", () => {
    expect(figureOf("displacement bore=3.78in stroke=8.5in cylinders=4")).toBeGreaterThan(380);
  });
  it("TM 5-3825-229-14&P, p. 6-24, gives .0031 for .0012 of bore: same sign and order, not the figure", () => {
    const gap = figureOf("ring-gap-change bore-change=-0.0012in");
    expect(gap).toBeLessThan(-0.0031);
    expect(gap).toBeGreaterThan(-0.0042);
  });
  it.each([
    ["123", "166.8"],
    ["61.5", "83.4"],
    ["40", "54"],
    ["45", "61"],
    ["118", "160"],
    ["137", "185"],
    ["50", "68"],
    ["105", "142"],
    ["155", "210"],
  ])("service manuals' pair %s ft-lb, %s N.m stands", (foot, newton) => {
    expect(partOf(`unit-pair first=${foot}ft_lbf second=${newton}N_m`, "agrees")).toBe(true);
  });
});

describe("the table", () => {
  it("has every computation, no check without a source, and is printed", () => {
    const all = rows();
    for (const { id } of COMPUTATIONS) expect(all.some(({ ask }) => ask.startsWith(`${id} `))).toBe(true);
    for (const { source } of all) expect(source).not.toBe("");
    process.stdout.write(`${table()}\n`);
  });
});
