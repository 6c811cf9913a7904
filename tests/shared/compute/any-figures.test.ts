// Whatever figures are typed, every computation answers with finite figures or refuses with a code: it never throws, and never says NaN.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Computation, Input } from "../../../shared/compute/computation.ts";
import { COMPUTATIONS } from "../../../shared/compute/registry.ts";
import { compute } from "../../../shared/compute/request.ts";

const figure = fc.oneof(
  fc.constantFrom(0, -0, 1, -1, 0.5, 2, 3.875, 90, 180, 360, 1e-9, 1e9, -1e9, 1e14, 1e308, 5e-324),
  fc.double({ min: -10, max: 10, noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 0.001, max: 400, noNaN: true, noDefaultInfinity: true }),
  fc.integer({ min: 1, max: 12 }),
);

const decimal = (value: number): string => String(value);

function typed(input: Input): fc.Arbitrary<string> {
  if (input.kind === "text") {
    const usual = ["IT7", "35ft_lbf", "20degC", "5.6N_m", "mm", "a,b"];
    return fc.constantFrom(...(input.choices === undefined || input.choices.length === 0 ? usual : input.choices));
  }
  const unit = input.unit === "any" ? "in" : input.unit;
  if (input.kind === "number") return figure.map((value) => `${decimal(value)}${unit}`);
  const [least, most] = input.count;
  return fc
    .array(figure, { minLength: least, maxLength: Math.min(most, least + 4) })
    .map((values) => values.map((value) => `${decimal(value)}${unit}`).join(","));
}

function pairsFor(row: Computation): fc.Arbitrary<string[]> {
  const given = Object.entries(row.inputs).map(([name, input]) => {
    const pair = typed(input).map((text) => [`${name}=${text}`]);
    return input.optional === true ? fc.oneof(fc.constant<string[]>([]), pair) : pair;
  });
  return fc.tuple(...given).map((all) => all.flat());
}

const figuresIn = (value: unknown): number[] =>
  typeof value === "number"
    ? [value]
    : typeof value === "object" && value !== null
      ? Object.values(value).flatMap(figuresIn)
      : [];

describe("any figures", () => {
  it.each(COMPUTATIONS.map((row) => [row.id, row] as const))("%s answers with finite figures or refuses", (id, row) => {
    fc.assert(
      fc.property(pairsFor(row), (pairs) => {
        const result = compute(id, pairs);
        if (!result.ok) {
          expect(result.error.say).toMatch(/^Expected /);
          return;
        }
        const { value, parts, rounded = "" } = result.computed;
        for (const found of [...figuresIn(value), ...figuresIn(parts)]) expect(Number.isFinite(found)).toBe(true);
        expect(JSON.stringify(rounded)).not.toMatch(/NaN|Infinity/);
      }),
      { numRuns: 150 },
    );
  });
});
