// What is said later is not said over somebody who goes on.
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Voice } from "../../../web/bench/voice.ts";

/** A browser's voice that says everything at once, and what it said. */
function speaker(): string[] {
  const said: string[] = [];
  class Words {
    onstart?: () => void;
    onend?: () => void;
    readonly text: string;
    constructor(text: string) {
      this.text = text;
    }
  }
  vi.stubGlobal("SpeechSynthesisUtterance", Words);
  vi.stubGlobal("speechSynthesis", {
    cancel: () => undefined,
    getVoices: () => [{ localService: true, lang: "en" }],
    speak: (words: Words) => {
      said.push(words.text);
      words.onstart?.();
      words.onend?.();
    },
  });
  return said;
}

const A_WHILE = 10_000;

describe("the voice", () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });

  it("says at once, and later what is to be said later", async () => {
    const said = speaker();
    const voice = new Voice();
    await voice.say("good");
    await voice.say("what is the figure?", true);
    expect(said).toEqual(["good"]);
    expect(voice.shut).toBe(true);
    await vi.advanceTimersByTimeAsync(1000);
    expect(voice.shut).toBe(false);
    await vi.advanceTimersByTimeAsync(A_WHILE);
    expect(said).toEqual(["good", "what is the figure?"]);
  });

  it.each([
    ["somebody speaks", (voice: Voice) => voice.hold(), []],
    ["something else is said", (voice: Voice) => voice.say("good"), ["good"]],
    ["something else is to be said later", (voice: Voice) => voice.say("which one?", true), ["which one?"]],
  ] as const)("leaves it where %s first", async (_, first, left) => {
    const said = speaker();
    const voice = new Voice();
    await voice.say("what is the figure?", true);
    await vi.advanceTimersByTimeAsync(500);
    await first(voice);
    await vi.advanceTimersByTimeAsync(A_WHILE);
    expect(said).toEqual(left);
  });
});
