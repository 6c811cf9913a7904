// The search is exact: on small grammars it finds what trying every sentence and every alignment finds. The scores it is held against
// are worked out here, from the definition of CTC (Graves and others, "Connectionist temporal classification", ICML 2006).
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LABEL_OF, PHONES } from "../../../extractors/hearing/acoustic/phones.ts";
import type { Posteriors } from "../../../extractors/hearing/acoustic/posteriors.ts";
import { seeded } from "../../../extractors/hearing/audio/noise.ts";
import { AutomatonBuilder, chain, maybe, oneOf, type State, words } from "../../../extractors/hearing/grammar/automaton.ts";
import { freeSpeech } from "../../../extractors/hearing/search/free.ts";
import { GRAMMAR_SCALE, graphOf } from "../../../extractors/hearing/search/graph.ts";
import { Search } from "../../../extractors/hearing/search/search.ts";
import { saidAs } from "../../../extractors/hearing/words/dictionary.ts";

const LABELS = PHONES.length + 1;

/** Log posteriors that sum to one a frame; a few labels of each frame stand out. */
function posteriorsOf(seed: number, frames: number, hints: readonly number[]): Posteriors {
  const random = seeded(seed);
  const values = new Float32Array(frames * LABELS);
  for (let frame = 0; frame < frames; frame += 1) {
    const scores = Array.from({ length: LABELS }, () => random() * 2);
    scores[0] = (scores[0] ?? 0) + 2;
    const hint = hints[Math.floor((frame / frames) * hints.length)] ?? 0;
    scores[hint] = (scores[hint] ?? 0) + 4 * random();
    const total = Math.log(scores.reduce((sum, score) => sum + Math.exp(score), 0));
    scores.forEach((score, label) => {
      values[frame * LABELS + label] = score - total;
    });
  }
  return { values, frames, labels: LABELS };
}

/** Best alignment of a string of labels by the recursion of CTC, blanks optional between labels and needed between equal ones. */
function alignment(labels: readonly number[], { values, frames }: Posteriors): number {
  const path = labels.flatMap((label) => [0, label]).concat(0);
  let row = path.map((_, index) => (index === 0 ? 0 : Number.NEGATIVE_INFINITY));
  for (let frame = 0; frame < frames; frame += 1) {
    row = path.map((label, index) => {
      const skips = label !== 0 && label !== path[index - 2];
      const before = Math.max(
        row[index] ?? 0,
        row[index - 1] ?? Number.NEGATIVE_INFINITY,
        skips && index >= 2 ? (row[index - 2] ?? 0) : Number.NEGATIVE_INFINITY,
      );
      // A sentence may begin with its first label.
      const begins = frame === 0 && index === 1 ? 0 : before;
      return begins + (values[frame * LABELS + label] ?? 0);
    });
  }
  return Math.max(row.at(-1) ?? 0, row.at(-2) ?? 0);
}

/** Every sentence from a state, with its words and the grammar's log weight. */
function* everySentence(
  state: State,
  said: readonly string[] = [],
  weight = 0,
): Generator<{ words: readonly string[]; weight: number }> {
  const total = state.arcs.reduce((sum, arc) => sum + arc.weight, state.final);
  if (state.final > 0) yield { words: said, weight: weight + Math.log(state.final / total) * GRAMMAR_SCALE };
  for (const arc of state.arcs)
    yield* everySentence(arc.to, [...said, arc.word], weight + Math.log(arc.weight / total) * GRAMMAR_SCALE);
}

function scored(start: State, posteriors: Posteriors) {
  return [...everySentence(start)]
    .map(({ words: said, weight }) => {
      const ways = saidAs(said.join(" ")).map((phones) => phones.map((phone) => LABEL_OF.get(phone) ?? 0));
      return { text: said.join(" "), score: weight + Math.max(...ways.map((labels) => alignment(labels, posteriors))) };
    })
    .sort((a, b) => b.score - a.score);
}

const start = new AutomatonBuilder().compile(
  chain(
    oneOf([words("ring gap"), words("bore"), words("main")]),
    oneOf([words("one"), words("two"), words("nine"), words("nine nine")]),
    maybe(words("top"), 0.3),
    maybe(oneOf([words("twelve"), words("fifteen"), words("sixteen"), chain(words("five"), maybe(words("thou")))])),
  ),
);
// No beam: what is held against trying everything gives up nothing.
const search = new Search(graphOf(start), Number.POSITIVE_INFINITY);

describe("the search", () => {
  it("finds the likeliest sentences of all, in order, with their exact scores", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e9 }), fc.integer({ min: 24, max: 40 }), (seed, frames) => {
        const random = seeded(seed);
        const all = [...everySentence(start)];
        const meant = all[Math.floor(random() * all.length)]?.words.join(" ") ?? "";
        const hints = (saidAs(meant)[0] ?? []).flatMap((phone) => [LABEL_OF.get(phone) ?? 0, 0]);
        const posteriors = posteriorsOf(seed, frames, hints);
        const wanted = scored(start, posteriors).filter(({ score }, _, list) => score > (list[0]?.score ?? 0) - 4);
        const found = search.sentences(posteriors, 200);
        expect(found[0]?.words.join(" ")).toBe(wanted[0]?.text);
        expect(found[0]?.score).toBeCloseTo(wanted[0]?.score ?? 0, 2);
        // Of a sentence that meets a better one just where a word ends, the blank between two equal phones may be left out.
        const blank = Math.max(...Array.from({ length: frames }, (_, frame) => -(posteriors.values[frame * LABELS] ?? 0)));
        const exact = new Map(scored(start, posteriors).map(({ text, score }) => [text, score]));
        for (const { words: said, score } of found)
          expect(score).toBeLessThanOrEqual((exact.get(said.join(" ")) ?? -1e9) + blank);
        const second = wanted[1];
        if (second !== undefined) expect(found.map(({ words: said }) => said.join(" "))).toContain(second.text);
      }),
      { numRuns: 60, seed: 5 },
    );
  });

  it("gives no sentence twice, best first", () => {
    const found = search.sentences(posteriorsOf(3, 30, [LABEL_OF.get("N") ?? 0]), 200);
    expect(new Set(found.map(({ words: said }) => said.join(" "))).size).toBe(found.length);
    expect(found.map(({ score }) => score)).toEqual([...found].map(({ score }) => score).sort((a, b) => b - a));
  });

  it("gives none where too few frames were heard for any", () => {
    expect(search.sentences(posteriorsOf(1, 2, [1]), 5)).toEqual([]);
    expect(search.sentences({ values: new Float32Array(0), frames: 0, labels: LABELS }, 5)).toEqual([]);
  });
});

describe("free speech", () => {
  it("counts phones and the frames from the first to the last", () => {
    const values = new Float32Array(6 * LABELS).fill(-9);
    // Blank, N, N, blank, N, blank.
    [0, 22, 22, 0, 22, 0].forEach((label, frame) => {
      values[frame * LABELS + label] = -0.5;
    });
    expect(freeSpeech({ values, frames: 6, labels: LABELS })).toEqual({ score: -3, phones: 2, frames: 4 });
  });
});
