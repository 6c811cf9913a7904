// Vocabulary tables and the quantity registry folded into one word tree: in go phrases, out comes what they can mean.
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { Noun, Sense, SignWord, UnitWord, WordKind } from "./types.ts";
import { CONDITION_WORDS } from "./vocabulary/conditions.ts";
import { UNIT_HEARD_AS } from "./vocabulary/misheard.ts";
import { ALL_STEMS, canonical, NAME_STOP_WORDS, NAME_WORDS } from "./vocabulary/names.ts";
import { NUMBER_WORDS } from "./vocabulary/numbers.ts";
import { NOUN_WORDS, PART_WORDS, SLOT_WORDS } from "./vocabulary/places.ts";
import { SIGN_WORDS } from "./vocabulary/signs.ts";
import { KIND_WORDS } from "./vocabulary/speech.ts";
import { SINGULAR_UNITS, UNIT_WORDS } from "./vocabulary/units.ts";

export interface Node {
  sense: Sense | undefined;
  next: Map<string, Node> | undefined;
}

const ROOT = new Map<string, Node>();

function nodeOf(phrase: string): Node {
  let level = ROOT;
  let node: Node | undefined;
  for (const word of phrase.split(" ")) {
    let child = level.get(word);
    if (child === undefined) {
      child = { sense: undefined, next: undefined };
      level.set(word, child);
    }
    node = child;
    child.next ??= new Map();
    level = child.next;
  }
  return node as Node;
}

/** Give a phrase one more meaning; meanings of one phrase stand side by side. */
function add(phrase: string, sense: Sense): void {
  const node = nodeOf(phrase);
  node.sense = { ...node.sense, ...sense };
}

function addAll(): void {
  // Fillers first: where a phrase is also a trade word, the trade meaning is added beside it.
  for (const [kind, phrases] of Object.entries(KIND_WORDS)) for (const p of phrases) add(p, { kind: kind as WordKind });
  for (const [unit, phrases] of Object.entries(UNIT_WORDS)) {
    for (const p of phrases)
      add(p, SINGULAR_UNITS.has(p) ? { unit: unit as UnitWord, singular: true } : { unit: unit as UnitWord });
  }
  for (const [word, unit] of Object.entries(UNIT_HEARD_AS)) add(word, { unit, repaired: true });
  for (const [word, num] of Object.entries(NUMBER_WORDS)) add(word, { num });
  for (const [sign, phrases] of Object.entries(SIGN_WORDS)) for (const p of phrases) add(p, { sign: sign as SignWord });
  for (const [word, part] of Object.entries(PART_WORDS)) add(word, { part });
  for (const [noun, phrases] of Object.entries(NOUN_WORDS)) for (const p of phrases) add(p, { noun: noun as Noun });
  for (const [word, sense] of Object.entries(SLOT_WORDS)) add(word, sense);
  for (const [word, condition] of Object.entries(CONDITION_WORDS)) add(word, { condition });
  for (const quantity of Object.values(QUANTITIES)) {
    for (const phrase of quantity.spoken) {
      for (const word of phrase.split(" ")) if (!NAME_STOP_WORDS.has(word)) add(word, { feat: canonical(word) });
    }
  }
  for (const word of ALL_STEMS) add(word, { feat: canonical(word) });
  for (const [phrase, feat] of Object.entries(NAME_WORDS)) add(phrase, { feat });
  for (const word of [
    "all",
    "all four",
    "all three",
    "all of them",
    "every",
    "every one",
    "all round",
    "the lot",
    "all mains",
    "all rods",
  ]) {
    add(word, { all: true });
  }
}
addAll();

/** Root of the word tree. */
export const LEXICON: ReadonlyMap<string, Node> = ROOT;
