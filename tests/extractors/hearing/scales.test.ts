// The search for a voice's frequency scale finds what trying every scale finds, and tries fewer.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bestScale } from "../../../extractors/hearing/scales.ts";

const SCALES = [0.86, 0.9, 0.94, 0.97, 1, 1.03, 1.06, 1.1, 1.14];

/** Fits of a voice that is heard best at `peak` and worse the further from it; `right` as coarse as phrases are. */
function listen(peak: number, phrases: number) {
  const tried: number[] = [];
  const fit = bestScale((warp) => {
    tried.push(warp);
    const off = Math.abs(Math.log(warp / peak));
    return { warp, right: Math.max(0, Math.round(phrases * (1 - 8 * off))), cost: 1000 * (1 + off) };
  });
  return { fit, tried };
}

describe("the scale of a voice", () => {
  it.each(SCALES)("is found at %s, no scale tried twice", (peak) => {
    const { fit, tried } = listen(peak, 12);
    expect(fit.warp).toBe(peak);
    expect(new Set(tried).size).toBe(tried.length);
  });

  it("is the nearest of those there are to any voice, high or low, with never more than seven tried", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.8, max: 1.2, noNaN: true }), fc.integer({ min: 4, max: 20 }), (peak, phrases) => {
        const { fit, tried } = listen(peak, phrases);
        const off = (warp: number) => Math.abs(Math.log(warp / peak));
        const nearest = Math.min(...SCALES.map(off));
        expect(off(fit.warp)).toBeCloseTo(nearest, 12);
        expect(tried.length).toBeLessThanOrEqual(7);
      }),
    );
  });
});
