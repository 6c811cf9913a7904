// A heard sentence in, the small grammar of what else it may have been out: the grammar's own sentences a slip or two away.
import { GRAMMAR_WEIGHT } from "../engine/decoder.ts";
import { likeness } from "../words/alike.ts";
import { saidAs } from "../words/dictionary.ts";
import { isNumberWord } from "../words/numbers.ts";
import type { State } from "./automaton.ts";
import { plainWord } from "./fsg.ts";

/** Words that may be taken for others, left out or put in, of one sentence. */
const MOST_SLIPS = 2;
/** A word of more phones is not heard out of nothing. */
const LONGEST_INSERTED = 3;
/** Share of phones that two words must have in common to be taken for each other. */
const ALIKE = 0.34;

const alikeKnown = new Map<string, boolean>();

/** Whether one word may be heard for the other: numbers always, others when they share enough of their phones. */
function areAlike(one: string, other: string): boolean {
  if (isNumberWord(one) && isNumberWord(other)) return true;
  const key = one < other ? `${one} ${other}` : `${other} ${one}`;
  const known = alikeKnown.get(key);
  if (known !== undefined) return known;
  const alike = likeness(one, other) >= ALIKE;
  alikeKnown.set(key, alike);
  return alike;
}

const isShort = (word: string) => saidAs(word).some((way) => way.length <= LONGEST_INSERTED) && !word.startsWith("+");

interface Node {
  readonly state: State;
  /** Words of the heard sentence that are accounted for. */
  readonly at: number;
  readonly slips: number;
  /** The unwanted sentences that it may still become. */
  readonly unwanted: Unwanted | undefined;
  readonly id: number;
  readonly arcs: { readonly word: string | undefined; readonly weight: number; readonly to: Node }[];
}

/** Words that a sentence mostly comes to the same with and without. */
const HOLLOW: ReadonlySet<string> = new Set(["a", "and", "at", "is", "number", "on", "the", "thou", "thousandth", "thousandths"]);

const isHollow = (word: string) => HOLLOW.has(plainWord(word));

/** A sentence (words with roles) without its hollow words: equal for what is unwanted together. */
export const solidOf = (sentence: readonly string[]): string => sentence.filter((word) => !isHollow(word)).join(" ");

/** Beginnings of unwanted sentences, hollow words left out. */
interface Unwanted {
  readonly id: number;
  readonly next: Map<string, Unwanted>;
  whole: boolean;
}

/** The empty beginning; undefined where nothing is unwanted. */
function beginningsOf(sentences: readonly (readonly string[])[]): Unwanted | undefined {
  if (sentences.length === 0) return undefined;
  let count = 0;
  const empty = (): Unwanted => ({ id: count++, next: new Map(), whole: false });
  const first = empty();
  for (const sentence of sentences) {
    let at = first;
    for (const word of sentence.filter((said) => !isHollow(said))) {
      const next = at.next.get(word) ?? empty();
      at.next.set(word, next);
      at = next;
    }
    at.whole = true;
  }
  return first;
}

/**
 * Sphinx FSG text of the sentences that `start` accepts and that differ from `heard` (words with roles) by at most two words; those
 * in `unwanted`, and what differs from them in hollow words only, cost `dearer` more than they do (natural-log units), and are left
 * out where that is infinite. Undefined when `heard` holds words the grammar does not have there, such as free speech, or when
 * nothing sounds like it.
 */
export function rivalsFsg(
  start: State,
  heard: readonly string[],
  unwanted: readonly (readonly string[])[] = [],
  dearer = Number.POSITIVE_INFINITY,
): string | undefined {
  const nodes = new Map<string, Node>();
  const order: Node[] = [];
  const nodeOf = (state: State, at: number, slips: number, begun: Unwanted | undefined): Node => {
    const key = `${state.id} ${at} ${slips} ${begun?.id ?? ""}`;
    let node = nodes.get(key);
    if (node === undefined) {
      node = { state, at, slips, unwanted: begun, id: order.length, arcs: [] };
      nodes.set(key, node);
      order.push(node);
    }
    return node;
  };
  nodeOf(start, 0, 0, beginningsOf(unwanted));
  for (const node of order) {
    const { state, at, slips } = node;
    const next = heard[at];
    for (const { word, to, weight } of state.arcs) {
      if (word.startsWith("+")) continue;
      const begun = isHollow(word) ? node.unwanted : node.unwanted?.next.get(word);
      // The same word in another role is no slip: "crankpin" may name the reading or the place of one.
      if (next !== undefined && plainWord(word) === plainWord(next))
        node.arcs.push({ word, weight, to: nodeOf(to, at + 1, slips, begun) });
      else if (slips < MOST_SLIPS) {
        if (next !== undefined && areAlike(word, next))
          node.arcs.push({ word, weight, to: nodeOf(to, at + 1, slips + 1, begun) });
        if (isShort(word)) node.arcs.push({ word, weight, to: nodeOf(to, at, slips + 1, begun) });
      }
    }
    if (next !== undefined && slips < MOST_SLIPS)
      node.arcs.push({ word: undefined, weight: 1, to: nodeOf(state, at + 1, slips + 1, node.unwanted) });
  }
  return fsgOf(order, heard.length, Math.exp(-dearer / GRAMMAR_WEIGHT));
}

/** Only nodes from which the end can be reached; `share` is what is left of the weight of an end that is not wanted. */
function fsgOf(order: readonly Node[], length: number, share: number): string | undefined {
  const endOf = (node: Node) => (node.at === length ? node.state.final * (node.unwanted?.whole === true ? share : 1) : 0);
  const ends = (node: Node) => endOf(node) > 0;
  const alive = new Set<Node>(order.filter(ends));
  const before = new Map<Node, Node[]>();
  for (const node of order)
    for (const { to } of node.arcs) {
      const list = before.get(to);
      if (list === undefined) before.set(to, [node]);
      else list.push(node);
    }
  const pending = [...alive];
  for (let node = pending.pop(); node !== undefined; node = pending.pop())
    for (const from of before.get(node) ?? [])
      if (!alive.has(from)) {
        alive.add(from);
        pending.push(from);
      }
  const [first] = order;
  if (first === undefined || !alive.has(first)) return undefined;
  const kept = order.filter((node) => alive.has(node));
  const number = new Map(kept.map((node, index) => [node, index] as const));
  const last = kept.length;
  const lines = ["FSG_BEGIN rivals", `NUM_STATES ${last + 1}`, "START_STATE 0", `FINAL_STATE ${last}`];
  for (const node of kept) {
    const from = number.get(node);
    for (const { word, weight, to } of node.arcs)
      if (alive.has(to))
        lines.push(`TRANSITION ${from} ${number.get(to)} ${weight.toPrecision(4)}${word === undefined ? "" : ` ${word}`}`);
    if (ends(node)) lines.push(`TRANSITION ${from} ${last} ${endOf(node).toPrecision(4)}`);
  }
  lines.push("FSG_END", "");
  return lines.join("\n");
}
