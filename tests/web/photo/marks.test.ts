// Marks on pictures: kept as shares of the picture, so that they point at the same spot at any size; facts in words.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PhotoFacts } from "../../../shared/events/events.ts";
import { markOfDrag, markPath, onPicture } from "../../../web/photo/marks.ts";
import { factLines, takenWords } from "../../../web/photo/photo-words.ts";

const side = fc.double({ min: 20, max: 4000, noNaN: true });
const share = fc.double({ min: 0, max: 1, noNaN: true });

describe("marks", () => {
  it("lie at the same share of the picture whatever its size and place on the screen", () => {
    fc.assert(
      fc.property(share, share, side, side, side, (x, y, left, width, height) => {
        const at = onPicture(left + x * width, 30 + y * height, { left, top: 30, width, height });
        expect(Math.abs(at.x - x)).toBeLessThan(1e-4);
        expect(Math.abs(at.y - y)).toBeLessThan(1e-4);
      }),
    );
  });

  it("stay on the picture and ignore slips of the finger", () => {
    const box = { left: 100, top: 100, width: 200, height: 100 };
    expect(onPicture(0, 900, box)).toEqual({ x: 0, y: 1 });
    expect(markOfDrag("arrow", { x: 0.5, y: 0.5 }, { x: 0.505, y: 0.5 })).toBeUndefined();
    expect(markOfDrag("circle", { x: 0.1, y: 0.2 }, { x: 0.4, y: 0.6 })).toEqual({
      kind: "circle",
      x1: 0.1,
      y1: 0.2,
      x2: 0.4,
      y2: 0.6,
    });
  });

  it("are drawn from start to tip, and between two sides", () => {
    expect(markPath({ kind: "arrow", x1: 0.25, y1: 0.5, x2: 0.75, y2: 0.5 }, 400, 200)).toMatch(/^M100 100L300 100M300 100L/);
    expect(markPath({ kind: "circle", x1: 0.75, y1: 0.25, x2: 0.25, y2: 0.75 }, 400, 200)).toBe(
      "M100 100a100 50 0 1 0 200 0a100 50 0 1 0 -200 0",
    );
  });
});

describe("facts in words", () => {
  const facts: PhotoFacts = {
    sha256: "a".repeat(64),
    bytes: 2_400_000,
    type: "image/jpeg",
    width: 4000,
    height: 3000,
    orientation: 6,
    taken: { at: "2026-03-02T08:47:08.25+01:00", source: "exif_original", zoneKnown: true },
    fingerprint: "0".repeat(16),
    focus: 7.4,
    highlights: 0.31,
    shadows: 0,
    card: { place: { rod: 3 }, subject: "cap_marks" },
  };
  it("name the clock, and say when its zone is unknown", () => {
    expect(takenWords(facts)).toBe("2026-03-02 08:47:08 +01:00, by the camera's own clock");
    const bare = { ...facts, taken: { at: "2026-03-02T08:47:08", source: "exif_modified" as const, zoneKnown: false } };
    expect(takenWords(bare)).toBe("2026-03-02 08:47:08, by the file's last change, zone unknown");
    const server = { ...facts, taken: { at: "2026-03-02T08:47:08.000Z", source: "server" as const, zoneKnown: true } };
    expect(takenWords(server)).toBe("2026-03-02 08:47:08 UTC, by the shop's clock at receipt");
  });
  it("tell blur, clipping and the card", () => {
    expect(factLines(facts)).toEqual([
      "4000 by 3000 px, 2.4 MB",
      "focus figure 7, blurred",
      "31 % clipped to white",
      "card in the frame: rod 3, cap marks",
    ]);
    const late = { ...facts, taken: { ...facts.taken, deviceAhead: 150 }, highlights: 0 };
    expect(factLines(late)).toContain("sending device's clock 150 s ahead of the shop's");
    expect(factLines({ ...late, taken: { ...facts.taken, deviceAhead: -1 } }).join()).not.toContain("clock");
  });
});
