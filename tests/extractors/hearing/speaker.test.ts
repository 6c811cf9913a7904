// The profile of a voice: what a session learnt is put with what was known, and too little begins none.
import { describe, expect, it } from "vitest";
import { readSpeaker, type Speaker, withLearnt } from "../../../extractors/hearing/index.ts";

const READ_ALOUD: Speaker = { format: "thoubook-speaker/1", name: "bench", warp: 0.97, noise: -60, right: 11, phrases: 12 };
const VOICE = "AAAAAA==";

const CASES: readonly (readonly [string, Speaker | undefined, { warp: number | undefined; sentences: number }, unknown])[] = [
  [
    "a voice that read aloud keeps its scale",
    READ_ALOUD,
    { warp: 1.01, sentences: 3 },
    { ...READ_ALOUD, voice: VOICE, sentences: 3 },
  ],
  [
    "sentences of shifts add up",
    { ...READ_ALOUD, voice: "BBBB", sentences: 24 },
    { warp: undefined, sentences: 6 },
    { ...READ_ALOUD, voice: VOICE, sentences: 30 },
  ],
  [
    "a voice that never read aloud is known after a dozen sentences",
    undefined,
    { warp: 0.98765, sentences: 12 },
    { format: "thoubook-speaker/1", name: "bench", warp: 0.988, right: 0, phrases: 0, sentences: 12, voice: VOICE },
  ],
  ["and not after fewer", undefined, { warp: 0.98, sentences: 11 }, undefined],
  ["nor before its scale is known", undefined, { warp: undefined, sentences: 12 }, undefined],
];

describe("a profile and what was learnt", () => {
  it.each(CASES)("%s", (_, known, { warp, sentences }, wanted) => {
    const profile = withLearnt(known, "bench", { warp, voice: VOICE, sentences });
    expect(profile).toEqual(wanted);
    if (profile !== undefined) expect(readSpeaker(JSON.parse(JSON.stringify(profile)))).toEqual(profile);
  });
});
