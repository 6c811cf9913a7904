// The bore's drawing: walls move out where the bore is worn, figures stand as they were spoken, what is missing is said.
import { describe, expect, it } from "vitest";
import { boreMap, wallShift } from "../../../web/pages/bore-map.ts";

describe("the bore map", () => {
  it("moves each wall by half the diameter's deviation", () => {
    // Geometry: a diameter 10 thou over is 5 thou a side; at 2 dots a thou that is 10 dots.
    expect(wallShift(3.885, 3.875, 2)).toBeCloseTo(10, 6);
    expect(wallShift(3.874, 3.875, 2)).toBeCloseTo(-1, 6);
  });

  it("shows every figure with the digits that were spoken", () => {
    const svg = boreMap({
      title: "cylinder 3",
      nominal: 3.875,
      points: [
        { depth: "top", axis: "thrust", value: 3.883, digits: "3.8830" },
        { depth: "bottom", axis: "axial", value: 3.8767, digits: "3.8767" },
      ],
    });
    expect(svg).toContain(">3.8830<");
    expect(svg).toContain("top thrust 3.8830, bottom axial 3.8767");
    expect(svg.match(/>none</g)).toHaveLength(4);
  });

  it("escapes what comes from outside", () => {
    const svg = boreMap({ title: "<script>&", nominal: 3.875, points: [] });
    expect(svg).not.toContain("<script>");
    expect(svg).toContain("&lt;script&gt;&amp;");
  });
});
