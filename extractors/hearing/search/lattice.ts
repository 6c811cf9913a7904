// The words that a search found possible, and the best sentences through them.

/** Partial sentences of one state that end with a word at one frame, as nodes; words between them, as links. */
export class Lattice {
  /** Best log score of a partial sentence that ends here. */
  readonly score: number[] = [];
  readonly state: number[] = [];
  readonly #firstLink: number[] = [];
  readonly #linkNext: number[] = [];
  readonly #linkFrom: number[] = [];
  readonly #linkWord: number[] = [];
  readonly #linkScore: number[] = [];
  readonly #linkWeight: number[] = [];

  /** A new node; the first one is where sentences start. */
  node(state: number, score: number): number {
    this.state.push(state);
    this.#firstLink.push(-1);
    return this.score.push(score) - 1;
  }

  /** `score`: of the best partial sentence that ends in `to` and came by this word, of this log weight, from `from`; word -1 for none. */
  link(to: number, from: number, word: number, score: number, weight = 0): void {
    this.#linkNext.push(this.#firstLink[to] ?? -1);
    this.#linkFrom.push(from);
    this.#linkWord.push(word);
    this.#linkWeight.push(weight);
    this.#firstLink[to] = this.#linkScore.push(score) - 1;
    if (score > (this.score[to] ?? 0)) this.score[to] = score;
  }

  /** One node for two partial sentences that meet in a state, from here on and only from here on. `one` is the better. */
  meet(state: number, one: number, oneScore: number, other: number, otherScore: number): number {
    if (this.#covers(one, other)) return one;
    const met = this.node(state, oneScore);
    this.link(met, one, -1, oneScore);
    this.link(met, other, -1, otherScore);
    return met;
  }

  /** Whether each way that leads to `other` leads to `one`, too: the last phone of a word was heard for some frames. */
  #covers(one: number, other: number): boolean {
    for (let link = this.#firstLink[other] ?? -1; link >= 0; link = this.#linkNext[link] ?? -1) {
      const [word = -1, from = 0] = [this.#linkWord[link], this.#linkFrom[link]];
      if (word < 0 ? !this.#covers(one, from) : !this.#leads(one, word, from)) return false;
    }
    return this.#firstLink[other] !== -1;
  }

  #leads(node: number, word: number, from: number): boolean {
    for (let link = this.#firstLink[node] ?? -1; link >= 0; link = this.#linkNext[link] ?? -1) {
      if (this.#linkWord[link] === word && this.#linkFrom[link] === from) return true;
      if (this.#linkWord[link] === -1 && this.#leads(this.#linkFrom[link] ?? 0, word, from)) return true;
    }
    return false;
  }

  /**
   * Sentences from the best to worse, as word numbers with their log score, by A* from the end: the score of the best partial sentence
   * before a node is exactly what is still to come. `ends` are the nodes where a sentence may stop, with its whole score there.
   * Gives each word sequence once and stops `width` below the best.
   */
  *sentences(
    ends: Iterable<{ readonly node: number; readonly score: number; readonly weight: number }>,
    width: number,
    most: number,
  ): Generator<{ readonly words: readonly number[]; readonly score: number; readonly weight: number }> {
    const open = new Heap();
    let best = Number.NEGATIVE_INFINITY;
    for (const { node, score, weight } of ends) {
      best = Math.max(best, score);
      open.push({ score, rest: score - (this.score[node] ?? 0), node, words: undefined, weight });
    }
    const given = new Set<string>();
    const seen = new Set<string>();
    for (let steps = 0; steps < most; steps += 1) {
      const item = open.pop();
      if (item === undefined || item.score < best - width) return;
      const key = keyOf(item.words);
      if (item.node === 0) {
        if (given.has(key)) continue;
        given.add(key);
        yield { words: wordsOf(item.words), score: item.score, weight: item.weight };
        continue;
      }
      // A way with the same rest that came here by another road was better.
      const place = `${item.node}|${key}`;
      if (seen.has(place)) continue;
      seen.add(place);
      for (let link = this.#firstLink[item.node] ?? -1; link >= 0; link = this.#linkNext[link] ?? -1) {
        const from = this.#linkFrom[link] ?? 0;
        const reached = this.#linkScore[link] ?? 0;
        const score = reached + item.rest;
        if (score < best - width) continue;
        const word = this.#linkWord[link] ?? -1;
        const words = word < 0 ? item.words : { word, next: item.words };
        open.push({
          score,
          rest: score - (this.score[from] ?? 0),
          node: from,
          words,
          weight: item.weight + (this.#linkWeight[link] ?? 0),
        });
      }
    }
  }
}

interface Chain {
  readonly word: number;
  readonly next: Chain | undefined;
}

interface Item {
  /** Of the whole sentence. */
  readonly score: number;
  /** What lies behind the node. */
  readonly rest: number;
  readonly node: number;
  /** Log weight of the words behind the node, by the grammar. */
  readonly weight: number;
  /** Words behind the node. */
  readonly words: Chain | undefined;
}

function wordsOf(chain: Chain | undefined): readonly number[] {
  const words: number[] = [];
  for (let link = chain; link !== undefined; link = link.next) words.push(link.word);
  return words;
}

const keyOf = (chain: Chain | undefined): string => wordsOf(chain).join(" ");

/** The item with the highest score first. */
class Heap {
  readonly #items: Item[] = [];

  push(item: Item): void {
    const items = this.#items;
    let at = items.push(item) - 1;
    while (at > 0) {
      const above = (at - 1) >> 1;
      const parent = items[above] as Item;
      if (parent.score >= item.score) break;
      items[at] = parent;
      at = above;
    }
    items[at] = item;
  }

  pop(): Item | undefined {
    const items = this.#items;
    const top = items[0];
    const last = items.pop();
    if (top === undefined || last === undefined || items.length === 0) return top;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below >= items.length) break;
      if (below + 1 < items.length && (items[below + 1] as Item).score > (items[below] as Item).score) below += 1;
      const child = items[below] as Item;
      if (child.score <= last.score) break;
      items[at] = child;
      at = below;
    }
    items[at] = last;
    return top;
  }
}
