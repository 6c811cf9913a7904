// Limits as they are said: thou under an inch, and of two bounds the one a value is beyond or nearest to.
import { describe, expect, it } from "vitest";
import { sayBound, sayLimit } from "../../../web/bench/said-limit.ts";

describe("limits as said", () => {
  it.each([
    ["0.0117 to 0.0176 in", "11.7 to 17.6 thou"],
    ["0.0030 in at most", "3 thou at most"],
    ["0.030 to 0.050 mm", "3 to 5 hundredths"],
    ["68.050 mm at most", "68.050 mm at most"],
    ["4.45 to 4.75", "4.45 to 4.75"],
    ["35 to 42 ft-lbf", "35 to 42 ft-lbf"],
    ["3.9040 to 3.9055 in", "3.9040 to 3.9055 in"],
  ])("%s as %s", (limit, said) => {
    expect(sayLimit(limit)).toBe(said);
  });

  it.each([
    ["0.01172 to 0.01757 in", 0.009, "minimum 11.7 thou"],
    ["0.01172 to 0.01757 in", 0.012, "minimum 11.7 thou"],
    ["0.01172 to 0.01757 in", 0.021, "maximum 17.6 thou"],
    ["-0.0002 to 0.0003 in", -0.0004, "minimum -0.2 thou"],
    ["3.9040 to 3.9055 in", 3.9061, "maximum 3.9055 in"],
    ["35 to 42 ft-lbf", 45, "maximum 42 ft-lbf"],
    ["0.0030 in at most", 0.0035, "limit 3 thou at most"],
    ["42 lbf at least", 38, "limit 42 lbf at least"],
    ["0.01172 to 0.01757 in", null, "limit 11.7 to 17.6 thou"],
    ["0.0200 to 0.0200 in", 0.03, "limit 20 to 20 thou"],
    [null, 0.012, ""],
  ])("%s against %s as %s", (limit, value, said) => {
    expect(sayBound({ limit, value })).toBe(said);
  });
});
