// Posteriors and a graph in, the sentences that were most likely said out: CTC Viterbi with a beam over the whole grammar, in one pass.
// Topology after Graves and others (2006): a phone may last, a blank may stand between phones and must between equal ones.
import type { Posteriors } from "../acoustic/posteriors.ts";
import type { Graph } from "./graph.ts";
import { Lattice } from "./lattice.ts";

export interface Sentence {
  /** Words with their roles. */
  readonly words: readonly string[];
  /** Natural-log score: posteriors along the best alignment, and the grammar's scaled weights. */
  readonly score: number;
}

/** Partial sentences so much worse than the best, in natural-log units, are given up. */
const BEAM = 16;
/** Sentences so much worse than the best are not told of. */
const WIDTH = 11;
/** Steps of the walk through the lattice, at most. */
const MOST_STEPS = 6000;

const NONE = Number.NEGATIVE_INFINITY;

/** One graph's search; its arrays are kept from one clip to the next. */
export class Search {
  readonly #graph: Graph;
  readonly #beam: number;
  #phone: Float32Array;
  #blank: Float32Array;
  #phoneFrom: Int32Array;
  #blankFrom: Int32Array;
  #phone2: Float32Array;
  #blank2: Float32Array;
  #phoneFrom2: Int32Array;
  #blankFrom2: Int32Array;
  readonly #mark: Int32Array;
  #clock = 0;

  /** @param beam how far behind the best a partial sentence is kept, natural-log units */
  constructor(graph: Graph, beam = BEAM) {
    this.#graph = graph;
    this.#beam = beam;
    const nodes = graph.label.length;
    this.#phone = new Float32Array(nodes);
    this.#blank = new Float32Array(nodes);
    this.#phone2 = new Float32Array(nodes);
    this.#blank2 = new Float32Array(nodes);
    this.#phoneFrom = new Int32Array(nodes);
    this.#blankFrom = new Int32Array(nodes);
    this.#phoneFrom2 = new Int32Array(nodes);
    this.#blankFrom2 = new Int32Array(nodes);
    this.#mark = new Int32Array(nodes);
  }

  /** The likeliest sentences, best first, at most `count` of them; none where no sentence of the grammar was reached. */
  sentences(posteriors: Posteriors, count: number): readonly Sentence[] {
    const { lattice, ends } = this.#pass(posteriors);
    const found: Sentence[] = [];
    for (const { words, score } of lattice.sentences(ends, WIDTH, MOST_STEPS)) {
      found.push({ words: words.map((word) => this.#graph.words[word] ?? ""), score });
      if (found.length >= count) break;
    }
    return found;
  }

  #pass({ values, frames, labels }: Posteriors): { lattice: Lattice; ends: { node: number; score: number }[] } {
    const { states, rootFrom, rootTo, label, gain, childFrom, childTo, endFrom, endWord, endState, endGain, final } = this.#graph;
    const lattice = new Lattice();
    const mark = this.#mark;
    // Of each state: the best sentence that waits in silence there, and that which has just come by a word, with its last phone.
    let silent = new Float32Array(states).fill(NONE);
    let silentNode = new Int32Array(states);
    let come = new Float32Array(states).fill(NONE);
    let comeNode = new Int32Array(states);
    let comeLabel = new Uint8Array(states);
    let silent2 = new Float32Array(states).fill(NONE);
    let silentNode2 = new Int32Array(states);
    let come2 = new Float32Array(states).fill(NONE);
    let comeNode2 = new Int32Array(states);
    let comeLabel2 = new Uint8Array(states);
    let openStates: number[] = [0];
    silent[0] = 0;
    silentNode[0] = lattice.node(0, 0);
    let active: number[] = [];
    let best = 0;

    for (let frame = 0; frame < frames; frame += 1) {
      const row = frame * labels;
      const blankScore = values[row] ?? 0;
      const floor = best - this.#beam;
      const [phone, blank, phoneFrom, blankFrom] = [this.#phone, this.#blank, this.#phoneFrom, this.#blankFrom];
      const [phone2, blank2, phoneFrom2, blankFrom2] = [this.#phone2, this.#blank2, this.#phoneFrom2, this.#blankFrom2];
      this.#clock += 1;
      const now = this.#clock;
      const next: number[] = [];
      let top = NONE;

      for (const state of openStates) {
        const waits = silent[state] as number;
        const arrived = come[state] as number;
        if (waits < floor && arrived < floor) continue;
        const last = comeLabel[state];
        for (let node = rootFrom[state] as number; node < (rootTo[state] as number); node += 1) {
          const of = label[node] as number;
          let score = waits;
          let from = silentNode[state] as number;
          if (arrived > waits && of !== last) {
            score = arrived;
            from = comeNode[state] as number;
          }
          score += gain[node] as number;
          if (score < floor) continue;
          score += values[row + of] as number;
          if (mark[node] !== now) {
            mark[node] = now;
            blank2[node] = NONE;
            next.push(node);
          } else if (score <= (phone2[node] as number)) continue;
          phone2[node] = score;
          phoneFrom2[node] = from;
          if (score > top) top = score;
        }
      }

      for (const node of active) {
        const p = phone[node] as number;
        const b = blank[node] as number;
        if (p < floor && b < floor) continue;
        const of = label[node] as number;
        const stays = p + (values[row + of] as number);
        if (mark[node] !== now) {
          mark[node] = now;
          phone2[node] = stays;
          phoneFrom2[node] = phoneFrom[node] as number;
          blank2[node] = NONE;
          next.push(node);
        } else if (stays > (phone2[node] as number)) {
          phone2[node] = stays;
          phoneFrom2[node] = phoneFrom[node] as number;
        }
        if (stays > top) top = stays;
        const first = childFrom[node] as number;
        const end = childTo[node] as number;
        if (first === end) continue;
        const pausedFrom = p > b ? (phoneFrom[node] as number) : (blankFrom[node] as number);
        const paused = (p > b ? p : b) + blankScore;
        // A node is marked by then; its blank was none.
        blank2[node] = paused;
        blankFrom2[node] = pausedFrom;
        if (paused > top) top = paused;
        for (let child = first; child < end; child += 1) {
          const childLabel = label[child] as number;
          let score = b;
          let from = blankFrom[node] as number;
          if (p > b && childLabel !== of) {
            score = p;
            from = phoneFrom[node] as number;
          }
          score += gain[child] as number;
          if (score < floor) continue;
          score += values[row + childLabel] as number;
          if (mark[child] !== now) {
            mark[child] = now;
            blank2[child] = NONE;
            next.push(child);
          } else if (score <= (phone2[child] as number)) continue;
          phone2[child] = score;
          phoneFrom2[child] = from;
          if (score > top) top = score;
        }
      }

      // Sentences that wait between two words.
      const open2: number[] = [];
      for (const state of openStates) {
        const waits = silent[state] as number;
        const arrived = come[state] as number;
        const byWord = arrived > waits;
        const score = (byWord ? arrived : waits) + blankScore;
        if ((byWord ? arrived : waits) < floor) continue;
        let node = (byWord ? comeNode[state] : silentNode[state]) as number;
        const other = (byWord ? silentNode[state] : comeNode[state]) as number;
        const behind = byWord ? waits - arrived : arrived - waits;
        const better = byWord ? arrived : waits;
        if (behind > -WIDTH) node = lattice.meet(state, node, better, other, better + behind);
        silent2[state] = score;
        silentNode2[state] = node;
        come2[state] = NONE;
        open2.push(state);
        if (score > top) top = score;
      }

      const floor2 = top - this.#beam;
      let live = 0;
      for (const node of next) {
        const score = phone2[node] as number;
        if (score < floor2 && (blank2[node] as number) < floor2) continue;
        next[live] = node;
        live += 1;
        if (score < floor2) continue;
        for (let end = endFrom[node] as number; end < (endFrom[node + 1] as number); end += 1) {
          const state = endState[end] as number;
          const whole = score + (endGain[end] as number);
          if (whole < floor2) continue;
          if (silent2[state] === NONE && come2[state] === NONE) open2.push(state);
          if (come2[state] === NONE) comeNode2[state] = lattice.node(state, whole);
          lattice.link(comeNode2[state] as number, phoneFrom2[node] as number, endWord[end] as number, whole);
          if (whole > (come2[state] as number)) {
            come2[state] = whole;
            comeLabel2[state] = label[node] as number;
          }
        }
      }
      next.length = live;
      for (const state of openStates) {
        silent[state] = NONE;
        come[state] = NONE;
      }
      [silent, silent2] = [silent2, silent];
      [silentNode, silentNode2] = [silentNode2, silentNode];
      [come, come2] = [come2, come];
      [comeNode, comeNode2] = [comeNode2, comeNode];
      [comeLabel, comeLabel2] = [comeLabel2, comeLabel];
      [this.#phone, this.#phone2] = [phone2, phone];
      [this.#blank, this.#blank2] = [blank2, blank];
      [this.#phoneFrom, this.#phoneFrom2] = [phoneFrom2, phoneFrom];
      [this.#blankFrom, this.#blankFrom2] = [blankFrom2, blankFrom];
      openStates = open2;
      active = next;
      best = top;
    }

    const ends: { node: number; score: number }[] = [];
    for (const state of openStates) {
      const stop = final[state] as number;
      if (stop === NONE) continue;
      if ((silent[state] as number) > NONE) ends.push({ node: silentNode[state] as number, score: (silent[state] as number) + stop });
      if ((come[state] as number) > NONE) ends.push({ node: comeNode[state] as number, score: (come[state] as number) + stop });
    }
    return { lattice, ends };
  }
}
