// Tag card payload: every place reads back as it was written, and no damaged text is taken for a place.
import fc from "fast-check";
import jsQR from "jsqr";
import QRCode from "qrcode";
import { describe, expect, it } from "vitest";
import { type Card, cardText, readCard } from "../../../shared/photo/card.ts";
import { AXES, DEPTHS, ENDS, FASTENERS, type Place, RINGS, SIDES, VALVES } from "../../../shared/places/places.ts";
import { STEP_IDS } from "../../../shared/steps/steps.ts";

const count = fc.integer({ min: 1, max: 32 });
const places = fc.record(
  {
    cylinder: count,
    main: count,
    rod: count,
    ring: fc.constantFrom(...RINGS),
    depth: fc.constantFrom(...DEPTHS),
    axis: fc.constantFrom(...AXES),
    valve: fc.constantFrom(...VALVES),
    side: fc.constantFrom(...SIDES),
    end: fc.constantFrom(...ENDS),
    fastener: fc.constantFrom(...FASTENERS),
    nut: fc.oneof(fc.constantFrom(...SIDES), fc.integer({ min: 1, max: 99 })),
    stage: fc.oneof(fc.integer({ min: 1, max: 9 }), fc.string({ maxLength: 40, unit: "binary" })),
    part: fc.string({ maxLength: 40, unit: "binary" }),
  },
  { requiredKeys: [] },
) as fc.Arbitrary<Place>;
const cards: fc.Arbitrary<Card> = fc.record(
  { place: places, step: fc.constantFrom(...STEP_IDS), subject: fc.stringMatching(/^[a-z0-9_]{1,30}$/) },
  { requiredKeys: ["place"] },
);
const ROD_3: Card = { place: { rod: 3 }, step: "teardown", subject: "cap_marks" };

describe("tag card text", () => {
  it("reads back as written, any place, step and subject", () => {
    fc.assert(
      fc.property(cards, (card) => {
        expect(readCard(cardText(card))).toEqual({ ok: true, card });
      }),
      { numRuns: 500 },
    );
  });

  it("keeps to the QR alphanumeric set (ISO/IEC 18004, table 5), so that its squares stay large", () => {
    fc.assert(
      fc.property(cards, (card) => {
        expect(cardText(card)).toMatch(/^[0-9A-Z $%*+\-./:]+$/);
      }),
    );
  });

  it("takes no text with one wrong character or two swapped neighbours", () => {
    const alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
    const text = cardText(ROD_3);
    for (let at = 0; at < text.length; at += 1) {
      for (const char of alphabet) {
        if (char === text[at]) continue;
        expect(readCard(text.slice(0, at) + char + text.slice(at + 1)).ok).toBe(false);
      }
      const swapped =
        text.slice(0, at) +
        text
          .slice(at, at + 2)
          .split("")
          .reverse()
          .join("") +
        text.slice(at + 2);
      if (swapped !== text) expect(readCard(swapped).ok).toBe(false);
    }
  });

  it("tells other codes and later versions apart", () => {
    expect(readCard("https://example.org/")).toMatchObject({ ok: false, code: "not_a_tag_card" });
    expect(readCard("")).toMatchObject({ ok: false, code: "not_a_tag_card" });
    expect(readCard(cardText(ROD_3).replace(/^TB1/, "TB2"))).toMatchObject({ ok: false, code: "unknown_card_version" });
    expect(readCard(cardText(ROD_3).replace("ROD:3", "ROD:4"))).toMatchObject({ ok: false, code: "damaged_card" });
  });

  it("is a QR code that an independent ISO/IEC 18004 decoder reads", async () => {
    for (const card of [
      ROD_3,
      { place: { fastener: "rod", rod: 4, nut: "b" }, step: "final_torque", subject: "cotter" } as const,
    ]) {
      const { modules } = QRCode.create(cardText(card), { errorCorrectionLevel: "Q" });
      const [pixel, quiet] = [6, 4];
      const side = (modules.size + 2 * quiet) * pixel;
      const data = new Uint8ClampedArray(side * side * 4).fill(255);
      for (let y = 0; y < side; y += 1) {
        for (let x = 0; x < side; x += 1) {
          const [row, column] = [Math.floor(y / pixel) - quiet, Math.floor(x / pixel) - quiet];
          const inside = row >= 0 && column >= 0 && row < modules.size && column < modules.size;
          if (inside && modules.get(row, column)) data.fill(0, (y * side + x) * 4, (y * side + x) * 4 + 3);
        }
      }
      expect(jsQR(data, side, side)?.data).toBe(cardText(card));
    }
  });
});
