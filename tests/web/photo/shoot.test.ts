// Taking a picture without hands, with stand-ins for camera, voice and keeping: order of words, retries, what is kept.
import { describe, expect, it } from "vitest";
import type { Card } from "../../../shared/photo/card.ts";
import type { Frame } from "../../../web/photo/camera.ts";
import { type Shot, shoot, shotWords } from "../../../web/photo/shoot.ts";

const CARD: Card = { place: { rod: 3 }, step: "teardown", subject: "cap_marks" };
const blank = { data: new Uint8ClampedArray(4), width: 1, height: 1 };

function bench(focuses: readonly number[], card?: Card) {
  const said: string[] = [];
  const kept: Shot[] = [];
  let taken = 0;
  const door = {
    grab: async (): Promise<Frame> => ({ jpeg: Uint8Array.of(taken), wide: blank, measured: blank }),
    look: async () => {
      const focus = focuses[taken] ?? 0;
      taken += 1;
      return card ? { focus, card } : { focus };
    },
    say: async (words: string) => void said.push(words),
    pause: async () => undefined,
    now: () => `2026-03-02T08:47:0${taken}+00:00`,
    keep: async (shot: Shot) => {
      // It is said to be kept only after it is.
      expect(said.at(-1)).not.toMatch(/kept/);
      kept.push(shot);
    },
  };
  return { door, said, kept, frames: () => taken };
}

describe("shoot", () => {
  it("counts down, keeps a sharp frame and says what it shows", async () => {
    const { door, said, kept, frames } = bench([80], CARD);
    const { sharp } = await shoot(door, { here: { rod: 2 } });
    expect(said).toEqual(["three", "two", "one", "rod 3, cap marks, sharp, kept"]);
    expect([sharp, frames(), kept.length]).toEqual([true, 1, 1]);
    expect(kept[0]?.shutter).toBe("2026-03-02T08:47:00+00:00");
  });

  it("takes a blurred one again", async () => {
    const { door, said, kept } = bench([2, 60]);
    await shoot(door, { here: { rod: 2 } });
    expect(said.slice(3)).toEqual(["blurred, again", "rod 2, sharp, kept"]);
    expect(kept[0]?.look.focus).toBe(60);
  });

  it("keeps the sharpest of three where none is sharp, and says so", async () => {
    const { door, said, kept, frames } = bench([2, 7, 5, 90]);
    const { sharp } = await shoot(door, { here: { cylinder: 1 } });
    expect(said.slice(3)).toEqual(["blurred, again", "blurred, again", "cylinder 1, blurred, kept"]);
    expect([sharp, frames(), kept[0]?.look.focus]).toEqual([false, 3, 7]);
  });

  it("claims nothing when keeping fails", async () => {
    const { door, said } = bench([80]);
    const keep = async () => Promise.reject(new Error("no room on this device"));
    await expect(shoot({ ...door, keep }, { here: {} })).rejects.toThrow("no room");
    expect(said.join()).not.toMatch(/kept/);
  });

  it("names the place said, then the card's, then where the device stands", () => {
    expect(shotWords(CARD, { said: { rod: 1 }, here: { rod: 2 } })).toBe("rod 1, cap marks");
    expect(shotWords(CARD, { here: { rod: 2 } })).toBe("rod 3, cap marks");
    expect(shotWords(undefined, { here: { rod: 2 } })).toBe("rod 2");
    expect(shotWords(undefined, { here: {} })).toBe("no place");
  });
});
