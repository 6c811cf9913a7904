// A heard sentence in, the small grammar of what else it may have been out: the grammar's own sentences a slip or two away.
import { likeness } from "../words/alike.ts";
import { pronunciationsOf } from "../words/dictionary.ts";
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

const isShort = (word: string) =>
  (pronunciationsOf(word) ?? []).some((phones) => phones.split(" ").length <= LONGEST_INSERTED) && !word.startsWith("+");

interface Node {
  readonly state: State;
  /** Words of the heard sentence that are accounted for. */
  readonly at: number;
  readonly slips: number;
  /** Whether one of them was in a word that counts. */
  readonly other: boolean;
  /** A word that was left out, where the heard sentence is not wanted: put in again, it would make that in two slips. */
  readonly dropped: string | undefined;
  readonly id: number;
  readonly arcs: { readonly word: string | undefined; readonly weight: number; readonly to: Node }[];
}

/** Words that a sentence mostly comes to the same with and without. */
const HOLLOW: ReadonlySet<string> = new Set(["a", "and", "at", "is", "number", "on", "the", "thou", "thousandth", "thousandths"]);

const counts = (word: string | undefined) => word !== undefined && !HOLLOW.has(plainWord(word));

/** Which rivals are wanted: all of them with the heard sentence among them, or those that differ from it in a word that counts. */
export type Wanted = "all" | "others";

/**
 * Sphinx FSG text of the sentences that `start` accepts and that differ from `heard` (words with roles) by at most two words.
 * Undefined when `heard` holds words the grammar does not have there, such as free speech, or when nothing sounds like it.
 */
export function rivalsFsg(start: State, heard: readonly string[], wanted: Wanted = "all"): string | undefined {
  const nodes = new Map<string, Node>();
  const order: Node[] = [];
  const nodeOf = (state: State, at: number, slips: number, differs: boolean, dropped: string | undefined): Node => {
    // Where all are wanted it is no matter whether they differ, and the grammar is the smaller for it.
    const other = differs && wanted === "others";
    const key = `${state.id} ${at} ${slips} ${other} ${dropped ?? ""}`;
    let node = nodes.get(key);
    if (node === undefined) {
      node = { state, at, slips, other, dropped, id: order.length, arcs: [] };
      nodes.set(key, node);
      order.push(node);
    }
    return node;
  };
  nodeOf(start, 0, 0, false, undefined);
  for (const node of order) {
    const { state, at, slips, other, dropped } = node;
    const next = heard[at];
    for (const { word, to, weight } of state.arcs) {
      if (word.startsWith("+")) continue;
      if (word === next) node.arcs.push({ word, weight, to: nodeOf(to, at + 1, slips, other, dropped) });
      else if (slips < MOST_SLIPS) {
        if (next !== undefined && areAlike(word, next))
          node.arcs.push({ word, weight, to: nodeOf(to, at + 1, slips + 1, true, dropped) });
        if (isShort(word) && word !== dropped)
          node.arcs.push({ word, weight, to: nodeOf(to, at, slips + 1, other || counts(word), dropped) });
      }
    }
    if (next !== undefined && slips < MOST_SLIPS) {
      const left = wanted === "all" ? undefined : next;
      node.arcs.push({ word: undefined, weight: 1, to: nodeOf(state, at + 1, slips + 1, other || counts(next), left) });
    }
  }
  return fsgOf(order, heard.length, wanted);
}

/** Only nodes from which the end can be reached. */
function fsgOf(order: readonly Node[], length: number, wanted: Wanted): string | undefined {
  const ends = (node: Node) => node.state.final > 0 && node.at === length && (wanted === "all" || node.other);
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
    if (ends(node)) lines.push(`TRANSITION ${from} ${last} ${node.state.final.toPrecision(4)}`);
  }
  lines.push("FSG_END", "");
  return lines.join("\n");
}
