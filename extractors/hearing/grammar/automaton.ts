// Phrases in, one small deterministic word automaton out: equal tails are shared, words that begin alike are merged.

/** A phrase pattern. Weights say how usual a choice is beside its neighbours, 1 for the most usual. */
export type Phrase =
  | { readonly kind: "word"; readonly word: string }
  | { readonly kind: "chain"; readonly parts: readonly Phrase[] }
  | { readonly kind: "choice"; readonly of: readonly (readonly [Phrase, number])[] }
  | { readonly kind: "loop"; readonly words: readonly string[]; readonly weight: number };

export interface Arc {
  readonly word: string;
  readonly to: State;
  readonly weight: number;
}

export interface State {
  readonly id: number;
  readonly arcs: readonly Arc[];
  /** Weight of stopping here; 0 when the sentence may not end here. */
  readonly final: number;
}

/** A chain of words, split at spaces; `tag` marks each word's role ("one~p" sounds like "one"). */
export function words(text: string, tag = ""): Phrase {
  const parts = text.split(" ").map((word): Phrase => ({ kind: "word", word: word + tag }));
  const [only] = parts;
  return parts.length === 1 && only !== undefined ? only : { kind: "chain", parts };
}

export const chain = (...parts: readonly Phrase[]): Phrase => ({ kind: "chain", parts });
export const EMPTY: Phrase = { kind: "chain", parts: [] };

/** One of several, all as usual as each other. */
export function oneOf(of: readonly Phrase[]): Phrase {
  const [only] = of;
  return of.length === 1 && only !== undefined ? only : { kind: "choice", of: of.map((phrase) => [phrase, 1] as const) };
}

/** One of several texts, all as usual as each other. */
export const anyOf = (texts: readonly string[]): Phrase => oneOf(texts.map((text) => words(text)));

export const weighted = (...of: readonly (readonly [Phrase, number])[]): Phrase => ({ kind: "choice", of });
/** May be left out; `weight` is how usual it is to say it, 1 when both are. */
export const maybe = (phrase: Phrase, weight = 1, without = 1): Phrase => weighted([phrase, weight], [EMPTY, without]);

/** Weights are set by hand: to the nearest power of two they are as good, and products and quotients stay such, so that more states are equal. */
const ratio = (value: number) => (value <= 0 ? 0 : 2 ** Math.round(Math.log2(value)));

/** Builds states from the end backwards, so that two phrases with the same rest share it. */
export class AutomatonBuilder {
  readonly states: State[] = [];
  readonly #byKey = new Map<string, State>();
  readonly #unions = new Map<string, State>();
  readonly #compiled = new Map<Phrase, Map<State, State>>();
  readonly end: State;

  constructor() {
    this.end = this.#intern([], 1);
  }

  #intern(arcs: readonly Arc[], final: number): State {
    const sorted = arcs.length > 1 ? [...arcs].sort((a, b) => (a.word < b.word ? -1 : 1)) : arcs;
    const key = `${final}|${sorted.map((arc) => `${arc.word}>${arc.to.id}*${arc.weight}`).join(" ")}`;
    const kept = this.#byKey.get(key);
    if (kept !== undefined) return kept;
    const state: State = { id: this.states.length, arcs: sorted, final };
    this.states.push(state);
    this.#byKey.set(key, state);
    return state;
  }

  /** One state that can do all that the given ones can; arcs with the same word are merged, the better weight kept. */
  #union(members: readonly (readonly [State, number])[]): State {
    const [only] = members;
    if (members.length === 1 && only !== undefined && only[1] === 1) return only[0];
    const key = members
      .map(([state, weight]) => `${state.id}*${weight}`)
      .sort()
      .join(" ");
    const kept = this.#unions.get(key);
    if (kept !== undefined) return kept;
    const byWord = new Map<string, (readonly [State, number])[]>();
    let final = 0;
    for (const [state, weight] of members) {
      final = Math.max(final, ratio(state.final * weight));
      for (const arc of state.arcs) {
        const group = byWord.get(arc.word);
        const entry = [arc.to, ratio(arc.weight * weight)] as const;
        if (group === undefined) byWord.set(arc.word, [entry]);
        else group.push(entry);
      }
    }
    const arcs: Arc[] = [];
    for (const [word, group] of byWord) {
      const best = Math.max(...group.map(([, weight]) => weight));
      const targets = new Map<State, number>();
      for (const [state, weight] of group) targets.set(state, Math.max(targets.get(state) ?? 0, ratio(weight / best)));
      arcs.push({ word, to: this.#union([...targets]), weight: best });
    }
    const state = this.#intern(arcs, final);
    this.#unions.set(key, state);
    return state;
  }

  /** The state from which exactly the words of `phrase` lead on to `next`. */
  compile(phrase: Phrase, next: State = this.end): State {
    let rests = this.#compiled.get(phrase);
    if (rests === undefined) {
      rests = new Map();
      this.#compiled.set(phrase, rests);
    }
    const kept = rests.get(next);
    if (kept !== undefined) return kept;
    const state = this.#compileNew(phrase, next);
    rests.set(next, state);
    return state;
  }

  #compileNew(phrase: Phrase, next: State): State {
    switch (phrase.kind) {
      case "word":
        return this.#intern([{ word: phrase.word, to: next, weight: 1 }], 0);
      case "chain":
        return phrase.parts.reduceRight((rest, part) => this.compile(part, rest), next);
      case "choice":
        return this.#union(phrase.of.map(([choice, weight]) => [this.compile(choice, next), weight] as const));
      case "loop": {
        // The only cycle: made open, then closed upon itself.
        const arcs: Arc[] = [];
        const state: State = { id: this.states.length, arcs, final: next.final };
        this.states.push(state);
        for (const word of phrase.words) arcs.push({ word, to: state, weight: phrase.weight });
        for (const arc of next.arcs) arcs.push(arc);
        return state;
      }
    }
  }
}

const taggedPhrases = new Map<string, WeakMap<Phrase, Phrase>>();

/** The same phrase with every word's role marked. Equal phrases give the same object, so that tails stay shared. */
export function tagged(phrase: Phrase, tag: string): Phrase {
  let known = taggedPhrases.get(tag);
  if (known === undefined) {
    known = new WeakMap();
    taggedPhrases.set(tag, known);
  }
  const kept = known.get(phrase);
  if (kept !== undefined) return kept;
  const made: Phrase =
    phrase.kind === "word"
      ? { kind: "word", word: phrase.word + tag }
      : phrase.kind === "chain"
        ? { kind: "chain", parts: phrase.parts.map((part) => tagged(part, tag)) }
        : phrase.kind === "choice"
          ? { kind: "choice", of: phrase.of.map(([choice, weight]) => [tagged(choice, tag), weight] as const) }
          : { ...phrase, words: phrase.words.map((word) => word + tag) };
  known.set(phrase, made);
  return made;
}
