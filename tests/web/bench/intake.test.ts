// The ear is shut while a sound of ours plays; what was begun under it is marked, what came after it is whole.
import { describe, expect, it } from "vitest";
import { Intake, type Sentence } from "../../../web/bench/intake.ts";

const RATE = 16_000;
const frame = (loud: boolean, n: number) =>
  Float32Array.from({ length: 320 }, (_, i) => 0.001 * Math.sin(i * n) + (loud ? 0.2 * Math.sin((n * 320 + i) / 6) : 0));

type Part = readonly [kind: "quiet" | "loud", ms: number, shut?: "shut"];

function run(parts: readonly Part[]): Sentence[] {
  const sentences: Sentence[] = [];
  let shut = false;
  const intake = new Intake(RATE, { shut: () => shut, talking: () => undefined, sentence: (one) => sentences.push(one) });
  let n = 0;
  for (const [kind, ms, closed] of parts) {
    shut = closed === "shut";
    for (let left = ms; left > 0; left -= 20) {
      n += 1;
      intake.feed(frame(kind === "loud", n));
    }
  }
  return sentences.filter(({ over }) => over);
}

describe("the intake", () => {
  it("hears nothing while it is shut", () => {
    expect(
      run([
        ["quiet", 1000],
        ["loud", 900, "shut"],
        ["quiet", 1200],
      ]),
    ).toEqual([]);
  });

  it("marks a sentence that began while it was shut", () => {
    const heard = run([
      ["quiet", 1000],
      ["loud", 400, "shut"],
      ["loud", 900],
      ["quiet", 1200],
    ]);
    expect(heard.map(({ clipped }) => clipped)).toEqual([true]);
  });

  it("takes a sentence that began after it was opened", () => {
    const heard = run([
      ["quiet", 1000],
      ["loud", 300, "shut"],
      ["quiet", 300],
      ["loud", 900],
      ["quiet", 1200],
    ]);
    expect(heard.map(({ clipped }) => clipped)).toEqual([false]);
  });

  it("marks a sentence in the middle of which the microphone was opened, however long its word goes on", () => {
    for (const word of [60, 200, 600, 1200]) {
      const heard = run([
        ["loud", word],
        ["quiet", 80],
        ["loud", 900],
        ["quiet", 1200],
        ["loud", 900],
        ["quiet", 1200],
      ]);
      expect(heard.map(({ clipped }) => clipped)).toEqual([true, false]);
    }
  });

  it("takes a sentence that began in quiet soon after the microphone was opened", () => {
    const heard = run([
      ["quiet", 200],
      ["loud", 900],
      ["quiet", 1200],
    ]);
    expect(heard.map(({ clipped }) => clipped)).toEqual([false]);
  });

  it("numbers sentences and their previews alike", () => {
    const heard = run([
      ["quiet", 1000],
      ["loud", 900],
      ["quiet", 1200],
      ["loud", 900],
      ["quiet", 1200],
    ]);
    expect(heard.map(({ number }) => number)).toEqual([1, 2]);
  });

  it("ends a sentence early where it paused, but not where it went on", () => {
    const ends: number[] = [];
    const sentences: Sentence[] = [];
    const intake = new Intake(RATE, {
      shut: () => false,
      talking: () => undefined,
      sentence: (one) => {
        sentences.push(one);
        if (!one.over) ends.push(one.end);
      },
    });
    let n = 0;
    const feed = (loud: boolean, ms: number) => {
      for (let left = ms; left > 0; left -= 20) intake.feed(frame(loud, ++n));
    };
    feed(false, 1000);
    feed(true, 600);
    feed(false, 300);
    feed(true, 600);
    intake.cut(ends[0] ?? 0);
    feed(false, 300);
    expect(sentences.map(({ over }) => over)).toEqual([false, false]);
    expect(intake.lull).toBe(ends[1]);
    intake.cut(ends[1] ?? 0);
    expect(sentences.map(({ over }) => over)).toEqual([false, false, true]);
    expect(sentences.at(-1)?.end).toBe(ends[1]);
    expect(intake.lull).toBeUndefined();
  });
});
