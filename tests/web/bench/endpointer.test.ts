// Where sentences start and end, on sound made here: tone bursts over noise, with pauses as between digits and between sentences.
import { describe, expect, it } from "vitest";
import { type Endpoint, Endpointer } from "../../../web/bench/endpointer.ts";

const RATE = 16_000;
const FRAME = 320;

/** Repeatable noise, -1..1. */
function noise(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state / 2 ** 32) * 2 - 1;
  };
}

type Part = readonly [kind: "quiet" | "loud", ms: number];

function run(parts: readonly Part[], room = 0.002): { events: Endpoint[]; at: number[] } {
  const random = noise(7);
  const endpointer = new Endpointer({ rate: RATE });
  const events: Endpoint[] = [];
  const at: number[] = [];
  let sample = 0;
  for (const [kind, ms] of parts)
    for (let frames = Math.round(ms / 20); frames > 0; frames -= 1) {
      const frame = Float32Array.from({ length: FRAME }, () => {
        sample += 1;
        return room * random() + (kind === "loud" ? 0.2 * Math.sin(sample / 6) : 0);
      });
      const event = endpointer.feed(frame);
      if (event === undefined) continue;
      events.push(event);
      at.push((sample / RATE) * 1000);
    }
  return { events, at };
}

const kinds = (parts: readonly Part[], room?: number) => run(parts, room).events.map(({ kind }) => kind);

describe("the endpointer", () => {
  it("finds one sentence between two quiets", () => {
    expect(
      kinds([
        ["quiet", 1000],
        ["loud", 900],
        ["quiet", 1200],
      ]),
    ).toEqual(["start", "lull", "end"]);
  });

  it("bridges the pauses between digits", () => {
    const parts: Part[] = [
      ["quiet", 800],
      ["loud", 300],
      ["quiet", 350],
      ["loud", 300],
      ["quiet", 500],
      ["loud", 300],
      ["quiet", 1000],
    ];
    expect(kinds(parts)).toEqual(["start", "lull", "onward", "lull", "onward", "lull", "end"]);
  });

  it("keeps the sound from before the first loud frame", () => {
    const { events } = run([
      ["quiet", 1000],
      ["loud", 1000],
      ["quiet", 1000],
    ]);
    const end = events.at(-1);
    const seconds = end?.kind === "end" ? end.pcm.length / RATE : 0;
    // 300 ms before, the second itself, and the quiet that ended it.
    expect(seconds).toBeGreaterThan(1.9);
    expect(seconds).toBeLessThan(2.2);
  });

  it("lets a knock go", () => {
    expect(
      kinds([
        ["quiet", 800],
        ["loud", 100],
        ["quiet", 1200],
      ]),
    ).toEqual(["start"]);
  });

  it("hears nothing in steady noise, loud or soft", () => {
    for (const room of [0.002, 0.02, 0.08]) expect(kinds([["quiet", 10_000]], room).filter((kind) => kind === "end")).toEqual([]);
  });

  it("finds the sentence in a noisy room once it knows the room", () => {
    expect(
      kinds(
        [
          ["quiet", 4000],
          ["loud", 900],
          ["quiet", 1200],
        ],
        0.02,
      ).at(-1),
    ).toBe("end");
  });

  it("ends a sentence that does not end", () => {
    expect(
      kinds([
        ["quiet", 800],
        ["loud", 13_000],
      ]),
    ).toContain("end");
  });
});
