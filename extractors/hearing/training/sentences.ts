// Writes what the training voices are to say, a JSON line a sentence: {"text", "phones"}. Half is walked at random through the bench's
// own grammar in many contexts, half is any English (documentation of installed packages), a tenth words in no order.
// Usage: tsx sentences.ts --dictionary FOLDER --documents FOLDER --count N --seed N > sentences.jsonl
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { parseArgs } from "node:util";
import type { Context } from "../../../shared/events/reading.ts";
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import type { State } from "../grammar/automaton.ts";
import { grammarsFor } from "../grammar/index.ts";
import { pronunciationsOf } from "../words/dictionary.ts";
import { plainWord } from "../words/plain-word.ts";

const { values } = parseArgs({
  options: {
    dictionary: { type: "string" },
    documents: { type: "string" },
    count: { type: "string", default: "60000" },
    seed: { type: "string", default: "1" },
  },
});
if (values.dictionary === undefined || values.documents === undefined)
  throw new Error("Expected --dictionary and --documents, got none");
const count = Number(values.count);

/** A small generator of 0..1, the same for the same seed (mulberry32, public domain). */
function generator(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
const random = generator(Number(values.seed));
const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;

/** General English, as the CMU Pronouncing Dictionary says it, stress taken off. */
const { dictionary } = (await import(pathToFileURL(path.join(values.dictionary, "index.js")).href)) as {
  dictionary: Readonly<Record<string, string>>;
};
const general = new Map(
  Object.entries(dictionary).map(([word, phones]) => [word, phones.replace(/\d/g, "").replace(/ *#.*/, "")]),
);

/** The usual way to say a word: the bench's own where it has one. */
const phonesOf = (word: string): string | undefined => pronunciationsOf(word)?.[0] ?? general.get(word);

const said = (words: readonly string[]): string | undefined => {
  const phones = words.map(phonesOf);
  return phones.includes(undefined) ? undefined : phones.join(" ");
};

/** A way through the grammar; weights are flattened, so that what is seldom said is trained, too. */
function walk(start: State): readonly string[] {
  const words: string[] = [];
  for (let state = start; ; ) {
    const total = state.arcs.reduce((sum, { weight }) => sum + weight ** 0.6, 0) + state.final ** 0.6;
    let left = random() * total;
    const arc = state.arcs.find(({ weight }) => {
      left -= weight ** 0.6;
      return left < 0;
    });
    if (arc === undefined || words.length > 14) return words;
    if (!arc.word.startsWith("+")) words.push(plainWord(arc.word));
    state = arc.to;
  }
}

const contexts: readonly Context[] = [
  {},
  { unit_system: "metric" },
  ...ALL_QUANTITIES.filter((_, index) => index % 3 === 0).map(({ id }): Context => ({ quantity: id })),
];

/** Plain sentences of two to nine known words in the documents below a folder. */
function* english(folder: string): Generator<string> {
  for (const name of readdirSync(folder, { recursive: true, encoding: "utf8" })) {
    // Prose only: a dictionary's own text files are lines of words and phones.
    if (!/\.(md|markdown)$/i.test(name)) continue;
    let text = "";
    try {
      text = readFileSync(path.join(folder, name), "utf8");
    } catch {
      continue;
    }
    const prose = text.replace(/```[\s\S]*?```|`[^`]*`|\([^)]*\)|https?\S+|[[\]*#_>|]/g, " ").toLowerCase();
    for (const sentence of prose.split(/[.!?\n:;,]+/)) {
      const words = sentence.trim().split(/\s+/);
      if (words.length >= 2 && words.length <= 9 && words.every((word) => /^[a-z']+$/.test(word) && general.has(word)))
        yield words.join(" ");
    }
  }
}

const wanted = new Set<string>();
for (const context of contexts) {
  const grammars = grammarsFor(DEMO_SPEC, context);
  for (const { start } of grammars) {
    const from = start();
    for (let n = 0; n < (count * 0.5) / contexts.length / grammars.length; n += 1) wanted.add(walk(from).join(" "));
  }
}
const prose = [...new Set(english(values.documents))];
for (let n = 0; n < count * 0.4; n += 1) wanted.add(pick(prose));
const everyWord = [...general.keys()].filter((word) => /^[a-z]{2,9}$/.test(word));
for (let n = 0; n < count * 0.1; n += 1)
  wanted.add(Array.from({ length: 2 + Math.floor(random() * 4) }, () => pick(everyWord)).join(" "));
wanted.delete("");

for (const text of wanted) {
  const phones = said(text.split(" "));
  if (phones !== undefined) process.stdout.write(`${JSON.stringify({ text, phones })}\n`);
}
