// Vocabulary tables and the quantity registry folded into one word tree: in go phrases, out comes what they can mean.
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { Noun, Sense, SignWord, UnitWord, WordKind } from "./types.ts";
import { CONDITION_WORDS } from "./vocabulary/conditions.ts";
import { UNIT_HEARD_AS } from "./vocabulary/misheard.ts";
import { ALL_STEMS, canonical, NAME_STOP_WORDS, NAME_WORDS } from "./vocabulary/names.ts";
import { NUMBER_WORDS } from "./vocabulary/numbers.ts";
import { ALL_WORDS, BOTH_WORDS, NOUN_WORDS, ORDINAL_COUNTS, PART_WORDS, SLOT_WORDS } from "./vocabulary/places.ts";
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

/** Add every phrase of a table of lists. */
function addLists<K extends string>(table: Readonly<Record<K, readonly string[]>>, sense: (key: K) => Sense): void {
  for (const key of Object.keys(table) as K[]) for (const phrase of table[key]) add(phrase, sense(key));
}

/** Add every word of a table. */
function addWords<V>(table: Readonly<Record<string, V>>, sense: (value: V) => Sense): void {
  for (const [word, value] of Object.entries(table)) add(word, sense(value));
}

function addNames(): void {
  for (const quantity of Object.values(QUANTITIES)) {
    for (const word of quantity.spoken.flatMap((phrase) => phrase.split(" "))) {
      if (!NAME_STOP_WORDS.has(word)) add(word, { feat: canonical(word) });
    }
  }
  for (const word of ALL_STEMS) add(word, { feat: canonical(word) });
  addWords(NAME_WORDS, (feat) => ({ feat }));
  // The other spelling of the gauge.
  for (const [word, feat] of Object.entries(NAME_WORDS)) if (word.includes("gauge")) add(word.replace("gauge", "gage"), { feat });
}

// Fillers first: where a phrase is also a trade word, the trade meaning is added beside it.
addLists(KIND_WORDS, (kind: WordKind) => ({ kind }));
addLists(UNIT_WORDS, (unit: UnitWord) => ({ unit }));
for (const word of SINGULAR_UNITS) add(word, { singular: true });
addWords(UNIT_HEARD_AS, (unit) => ({ unit, repaired: true }));
addWords(NUMBER_WORDS, (num) => ({ num }));
addLists(SIGN_WORDS, (sign: SignWord) => ({ sign }));
addWords(PART_WORDS, (part) => ({ part }));
addLists(NOUN_WORDS, (noun: Noun) => ({ noun }));
addWords(SLOT_WORDS, (sense) => sense);
addWords(ORDINAL_COUNTS, (count) => ({ count }));
addWords(CONDITION_WORDS, (condition) => ({ condition }));
addNames();
for (const word of ALL_WORDS) add(word, { all: "all" });
for (const word of BOTH_WORDS) add(word, { all: "both" });

/** Root of the word tree. */
export const LEXICON: ReadonlyMap<string, Node> = ROOT;
