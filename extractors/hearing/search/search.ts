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
  /** The score by the posteriors alone. */
  readonly sounds: number;
}

/** Partial sentences so much worse than the best, in natural-log units, are given up. */
const BEAM = 16;
/** Sentences so much worse than the best are not told of. */
const WIDTH = 11;
/** Steps of the walk through the lattice, at most. */
const MOST_STEPS = 6000;

const NONE = Number.NEGATIVE_INFINITY;

/** Partial sentences by where they are, one of each: their log score, and the lattice's node they came from. */
interface Cells {
  readonly score: Float32Array;
  readonly from: Int32Array;
}

const cells = (count: number): Cells => ({ score: new Float32Array(count).fill(NONE), from: new Int32Array(count) });

/** What is open in one frame: in the phones and the blanks of the trees, and between words. */
interface Front {
  readonly phone: Cells;
  readonly blank: Cells;
  nodes: number[];
  /** Waiting in silence between two words. */
  readonly silent: Cells;
  /** Just come by a word, and the label of its last phone. */
  readonly come: Cells;
  readonly last: Uint8Array;
  states: number[];
}

const front = (graph: Graph): Front => ({
  phone: cells(graph.label.length),
  blank: cells(graph.label.length),
  nodes: [],
  silent: cells(graph.states),
  come: cells(graph.states),
  last: new Uint8Array(graph.states),
  states: [],
});

/** One graph's search; its arrays are kept from one clip to the next. */
export class Search {
  readonly #graph: Graph;
  readonly #beam: number;
  /** The frame in which a node was last reached. */
  readonly #mark: Int32Array;
  #now: Front;
  #next: Front;
  #lattice = new Lattice();
  #clock = 0;
  /** Score of the best partial sentence of the frame before, and of the frame that is being made. */
  #best = 0;
  #top = NONE;

  /** @param beam how far behind the best a partial sentence is kept, natural-log units */
  constructor(graph: Graph, beam = BEAM) {
    this.#graph = graph;
    this.#beam = beam;
    this.#mark = new Int32Array(graph.label.length);
    this.#now = front(graph);
    this.#next = front(graph);
  }

  /** The likeliest sentences, best first, at most `count` of them; none where no sentence of the grammar was reached. */
  sentences(posteriors: Posteriors, count: number): readonly Sentence[] {
    this.#start();
    for (let frame = 0; frame < posteriors.frames; frame += 1) this.#step(posteriors.values, frame * posteriors.labels);
    const found: Sentence[] = [];
    for (const { words, score, weight } of this.#lattice.sentences(this.#ends(), WIDTH, MOST_STEPS)) {
      found.push({ words: words.map((word) => this.#graph.words[word] ?? ""), score, sounds: score - weight });
      if (found.length >= count) break;
    }
    return found;
  }

  #start(): void {
    const { silent, come, states } = this.#now;
    for (const state of states) {
      silent.score[state] = NONE;
      come.score[state] = NONE;
    }
    this.#lattice = new Lattice();
    this.#now.nodes = [];
    this.#now.states = [0];
    silent.score[0] = 0;
    silent.from[0] = this.#lattice.node(0, 0);
    this.#best = 0;
  }

  #step(values: Float32Array, row: number): void {
    this.#clock += 1;
    this.#top = NONE;
    this.#next.nodes = [];
    this.#next.states = [];
    const floor = this.#best - this.#beam;
    for (const state of this.#now.states) this.#enter(state, values, row, floor);
    for (const node of this.#now.nodes) this.#advance(node, values, row, floor);
    for (const state of this.#now.states) this.#wait(state, values[row] as number, floor);
    this.#arrive(this.#top - this.#beam);
    const { silent, come, states } = this.#now;
    for (const state of states) {
      silent.score[state] = NONE;
      come.score[state] = NONE;
    }
    [this.#now, this.#next] = [this.#next, this.#now];
    this.#best = this.#top;
  }

  /** A partial sentence reaches the phone of a node, or one that reached it with a better score stays. */
  #reach(node: number, score: number, from: number): void {
    const { phone, blank, nodes } = this.#next;
    if (this.#mark[node] !== this.#clock) {
      this.#mark[node] = this.#clock;
      blank.score[node] = NONE;
      nodes.push(node);
    } else if (score <= (phone.score[node] as number)) return;
    phone.score[node] = score;
    phone.from[node] = from;
    if (score > this.#top) this.#top = score;
  }

  /** From between two words into the first phones of the next. */
  #enter(state: number, values: Float32Array, row: number, floor: number): void {
    const { rootFrom, rootTo, label, gain } = this.#graph;
    const { silent, come, last } = this.#now;
    const waits = silent.score[state] as number;
    const arrived = come.score[state] as number;
    if (waits < floor && arrived < floor) return;
    const end = rootTo[state] as number;
    for (let node = rootFrom[state] as number; node < end; node += 1) {
      const of = label[node] as number;
      const straight = arrived > waits && of !== last[state];
      const score = (straight ? arrived : waits) + (gain[node] as number);
      if (score < floor) continue;
      this.#reach(node, score + (values[row + of] as number), (straight ? come.from[state] : silent.from[state]) as number);
    }
  }

  /** A phone lasts, a blank follows it, or the next phone of the word does. */
  #advance(node: number, values: Float32Array, row: number, floor: number): void {
    const { label, gain, childFrom, childTo } = this.#graph;
    const { phone, blank } = this.#now;
    const sounds = phone.score[node] as number;
    const rests = blank.score[node] as number;
    if (sounds < floor && rests < floor) return;
    const of = label[node] as number;
    const soundsFrom = phone.from[node] as number;
    const restsFrom = blank.from[node] as number;
    this.#reach(node, sounds + (values[row + of] as number), soundsFrom);
    const first = childFrom[node] as number;
    const end = childTo[node] as number;
    if (first === end) return;
    const paused = Math.max(sounds, rests) + (values[row] as number);
    this.#next.blank.score[node] = paused;
    this.#next.blank.from[node] = sounds > rests ? soundsFrom : restsFrom;
    if (paused > this.#top) this.#top = paused;
    for (let child = first; child < end; child += 1) {
      const childLabel = label[child] as number;
      const straight = sounds > rests && childLabel !== of;
      const score = (straight ? sounds : rests) + (gain[child] as number);
      if (score < floor) continue;
      this.#reach(child, score + (values[row + childLabel] as number), straight ? soundsFrom : restsFrom);
    }
  }

  /** Sentences that wait between two words; of two that meet both stay possible. */
  #wait(state: number, blankScore: number, floor: number): void {
    const { silent, come } = this.#now;
    const waits = silent.score[state] as number;
    const arrived = come.score[state] as number;
    const better = Math.max(waits, arrived);
    if (better < floor) return;
    const worse = Math.min(waits, arrived);
    const [one, other] = arrived > waits ? [come.from, silent.from] : [silent.from, come.from];
    let node = one[state] as number;
    if (worse > better - WIDTH) node = this.#lattice.meet(state, node, better, other[state] as number, worse);
    this.#next.silent.score[state] = better + blankScore;
    this.#next.silent.from[state] = node;
    this.#next.come.score[state] = NONE;
    this.#next.states.push(state);
    if (better + blankScore > this.#top) this.#top = better + blankScore;
  }

  /** Words that end in this frame lead to the states behind them; what lies below the beam is given up. */
  #arrive(floor: number): void {
    const next = this.#next;
    let live = 0;
    for (const node of next.nodes) {
      const score = next.phone.score[node] as number;
      if (score < floor && (next.blank.score[node] as number) < floor) continue;
      next.nodes[live] = node;
      live += 1;
      if (score >= floor) this.#end(node, score, floor);
    }
    next.nodes.length = live;
  }

  #end(node: number, score: number, floor: number): void {
    const { endFrom, endWord, endState, endGain, endWeight, label } = this.#graph;
    const { silent, come, last, phone, states } = this.#next;
    const behind = endFrom[node + 1] as number;
    for (let end = endFrom[node] as number; end < behind; end += 1) {
      const state = endState[end] as number;
      const whole = score + (endGain[end] as number);
      if (whole < floor) continue;
      const isNew = come.score[state] === NONE;
      if (isNew && silent.score[state] === NONE) states.push(state);
      if (isNew) come.from[state] = this.#lattice.node(state, whole);
      this.#lattice.link(
        come.from[state] as number,
        phone.from[node] as number,
        endWord[end] as number,
        whole,
        endWeight[end] as number,
      );
      if (whole <= (come.score[state] as number)) continue;
      come.score[state] = whole;
      last[state] = label[node] as number;
    }
  }

  /** Where a sentence may stop, with its whole score there. */
  *#ends(): Generator<{ readonly node: number; readonly score: number; readonly weight: number }> {
    for (const state of this.#now.states) {
      const stop = this.#graph.final[state] as number;
      if (stop === NONE) continue;
      for (const { score, from } of [this.#now.silent, this.#now.come])
        if ((score[state] as number) > NONE)
          yield { node: from[state] as number, score: (score[state] as number) + stop, weight: stop };
    }
  }
}
