// Tag cards in drawn scenes: what the intake's look must read, and the edge steepening against its plain definition.
import { describe, expect, it } from "vitest";
import { findCards } from "../../../extractors/photo/find-cards.ts";
import { greyOfRgba, MEASURE_SIZE } from "../../../extractors/photo/measures.ts";
import { shrunk } from "../../../extractors/photo/pixels.ts";
import { steepen } from "../../../extractors/photo/steepen.ts";
import { cardText } from "../../../shared/photo/card.ts";
import { cardScene, HINDRANCES } from "../../bench/photo-scenes.ts";

/** Scenes of eight that must be read; the benchmark measures the rest. */
const FLOORS: Readonly<Record<string, number>> = {
  "flat and clean": 8,
  "any rotation": 8,
  tilted: 8,
  "steeply tilted": 8,
  "slightly blurred": 8,
  glare: 7,
  "all at once": 3,
};

describe("tag cards in a scene", () => {
  it.each(Object.entries(FLOORS))("%s", async (name, floor) => {
    const how = HINDRANCES.find((hindrance) => hindrance.name === name);
    if (!how) throw new Error(`no hindrance ${name}`);
    let read = 0;
    for (let seed = 101; seed < 109; seed += 1) {
      const { picture, text } = await cardScene(how, seed);
      const { width, height } = picture;
      const grey = await shrunk(greyOfRgba(picture.data, width, height), MEASURE_SIZE);
      const texts = (await findCards(grey)).map(({ card }) => cardText(card));
      // A card may be missed; it is never read as another one.
      for (const found of texts) expect(found).toBe(text);
      read += texts.includes(text) ? 1 : 0;
    }
    expect(read).toBeGreaterThanOrEqual(floor);
  });
});

describe("steepened edges", () => {
  it("add twice the difference to the mean of the field around, within 0 to 255", () => {
    const [width, height] = [19, 13];
    const data = Uint8Array.from({ length: width * height }, (_, at) => (at * 7919 + at * at) % 256);
    const { data: out } = steepen({ data, width, height });
    for (let y = 0; y < height; y += 1) {
      for (let x = 0; x < width; x += 1) {
        const level = data[y * width + x] ?? 0;
        let expected = level;
        if (x >= 2 && y >= 2 && x < width - 2 && y < height - 2) {
          let sum = 0;
          for (let dy = -2; dy <= 2; dy += 1) for (let dx = -2; dx <= 2; dx += 1) sum += data[(y + dy) * width + x + dx] ?? 0;
          expected = Math.trunc(Math.min(255, Math.max(0, level + 2 * (level - sum / 25))));
        }
        const at = (y * width + x) * 4;
        expect(Math.abs((out[at] ?? -1) - expected)).toBeLessThanOrEqual(1);
        expect([out[at + 1], out[at + 2], out[at + 3]]).toEqual([out[at], out[at], 255]);
      }
    }
  });
});
