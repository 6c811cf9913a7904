// A word automaton in, the phone graph that is searched out: a pronunciation tree for each state, in flat arrays.
import { LABEL_OF } from "../acoustic/phones.ts";
import type { State } from "../grammar/automaton.ts";
import { reachable } from "../grammar/walk.ts";
import { saidAs } from "../words/dictionary.ts";

/**
 * How much the grammar's weights count beside the network's posteriors, both natural logarithms. Posteriors of neighbouring frames are
 * not independent, so that they say more than they know; usual in hybrid decoding, the value tuned on voices kept apart.
 */
export const GRAMMAR_SCALE = 0.5;

/** Trees of pronunciations, one a state. Node numbers index `label`, `gain`, `childFrom` and `endFrom`. */
export interface Graph {
  readonly states: number;
  /** Nodes `rootFrom[s]` to `rootTo[s]` are the first phones of the words that may follow state s. */
  readonly rootFrom: Int32Array;
  readonly rootTo: Int32Array;
  /** The network's label of each node's phone. */
  readonly label: Uint8Array;
  /** Log weight added where a node is entered: that of the likeliest word below it, less what was added above it. */
  readonly gain: Float32Array;
  /** Nodes `childFrom[n]` to `childTo[n]` follow node n. */
  readonly childFrom: Int32Array;
  readonly childTo: Int32Array;
  /** Entries `endFrom[n]` to `endFrom[n + 1]` of the next three are words that end with node n. */
  readonly endFrom: Int32Array;
  readonly endWord: Int32Array;
  readonly endState: Int32Array;
  readonly endGain: Float32Array;
  /** The whole log weight of each of these words. */
  readonly endWeight: Float32Array;
  /** Log weight of stopping in a state; -Infinity where no sentence ends. */
  readonly final: Float32Array;
  /** Words with their roles by number. */
  readonly words: readonly string[];
}

interface Tree {
  readonly label: number;
  readonly children: Map<number, Tree>;
  readonly ends: { readonly word: number; readonly state: number; readonly weight: number }[];
  /** Log weight of the likeliest word at or below it. */
  best: number;
}

const tree = (label: number): Tree => ({ label, children: new Map(), ends: [], best: Number.NEGATIVE_INFINITY });

/** Build the graph of all sentences from `start`. Words without a pronunciation have no path: the dictionary's test finds them. */
export function graphOf(start: State): Graph {
  const states = reachable(start);
  const numberOf = new Map(states.map((state, index) => [state, index]));
  const words: string[] = [];
  const wordNumber = new Map<string, number>();
  const numberOfWord = (word: string): number => {
    const known = wordNumber.get(word);
    if (known !== undefined) return known;
    wordNumber.set(word, words.length);
    return words.push(word) - 1;
  };

  const rootFrom = new Int32Array(states.length);
  const rootTo = new Int32Array(states.length);
  const final = new Float32Array(states.length);
  const label: number[] = [];
  const gain: number[] = [];
  const childFrom: number[] = [];
  const childTo: number[] = [];
  const endFrom: number[] = [];
  const endWord: number[] = [];
  const endState: number[] = [];
  const endGain: number[] = [];
  const endWeight: number[] = [];

  states.forEach((state, index) => {
    const total = state.arcs.reduce((sum, { weight }) => sum + weight, state.final);
    const cost = (weight: number) => Math.log(weight / total) * GRAMMAR_SCALE;
    final[index] = state.final > 0 ? cost(state.final) : Number.NEGATIVE_INFINITY;
    rootFrom[index] = label.length;
    const root = tree(0);
    for (const { word, to, weight } of state.arcs)
      for (const phones of saidAs(word))
        grow(root, phones, { word: numberOfWord(word), state: numberOf.get(to) ?? 0, weight: cost(weight) });
    // Breadth first, so that the children of a node stand side by side.
    const order: Tree[] = [];
    const put = (nodes: Iterable<Tree>, above: number) => {
      for (const node of nodes) {
        order.push(node);
        label.push(node.label);
        gain.push(node.best - above);
      }
    };
    put(root.children.values(), 0);
    rootTo[index] = label.length;
    for (const node of order) {
      childFrom.push(label.length);
      put(node.children.values(), node.best);
      childTo.push(label.length);
      endFrom.push(endWord.length);
      for (const end of node.ends) {
        endWord.push(end.word);
        endState.push(end.state);
        endGain.push(end.weight - node.best);
        endWeight.push(end.weight);
      }
    }
  });
  endFrom.push(endWord.length);
  return {
    states: states.length,
    rootFrom,
    rootTo,
    label: Uint8Array.from(label),
    gain: Float32Array.from(gain),
    childFrom: Int32Array.from(childFrom),
    childTo: Int32Array.from(childTo),
    endFrom: Int32Array.from(endFrom),
    endWord: Int32Array.from(endWord),
    endState: Int32Array.from(endState),
    endGain: Float32Array.from(endGain),
    endWeight: Float32Array.from(endWeight),
    final,
    words,
  };
}

/** Put one pronunciation of a word into a tree. */
function grow(root: Tree, phones: readonly string[], end: Tree["ends"][number]): void {
  let node = root;
  for (const phone of phones) {
    const label = LABEL_OF.get(phone);
    if (label === undefined) throw new Error(`Expected a phone of the network, got ${phone}`);
    const next = node.children.get(label) ?? tree(label);
    node.children.set(label, next);
    next.best = Math.max(next.best, end.weight);
    node = next;
  }
  node.ends.push(end);
}
