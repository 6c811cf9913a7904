// Walks over an automaton.
import { plainWord } from "../words/plain-word.ts";
import type { State } from "./automaton.ts";
/** The states that can be reached from `start`, in a stable order, `start` first. */
export function reachable(start: State): readonly State[] {
  const seen = new Set<State>([start]);
  const order: State[] = [start];
  for (const state of order) {
    for (const { to } of state.arcs) {
      if (seen.has(to)) continue;
      seen.add(to);
      order.push(to);
    }
  }
  return order;
}

/** Every word of the automaton, roles included, sorted. */
export function wordsOf(start: State): readonly string[] {
  const found = new Set<string>();
  for (const state of reachable(start)) for (const { word } of state.arcs) found.add(word);
  return [...found].sort();
}

/** Words that may follow `sentence` (with roles) in the grammar, and whether it may end there; undefined when it is not in it. */
export function follow(start: State, sentence: readonly string[]): State | undefined {
  let state: State | undefined = start;
  for (const word of sentence) {
    state = state.arcs.find((arc) => arc.word === word)?.to;
    if (state === undefined) return undefined;
  }
  return state;
}

/** A random sentence of the grammar, roles included. `random` gives 0..1. */
export function randomSentence(start: State, random: () => number): readonly string[] {
  const sentence: string[] = [];
  let state = start;
  for (;;) {
    const options = state.arcs.length + (state.final > 0 ? 1 : 0);
    const pick = Math.floor(random() * options);
    const arc = state.arcs[pick];
    if (arc === undefined) return sentence;
    sentence.push(arc.word);
    state = arc.to;
  }
}

/** Every way through the grammar that says `sentence` (words without roles): its words with their roles. */
export function* pathsOf(start: State, sentence: readonly string[]): Generator<readonly string[]> {
  const [first, ...rest] = sentence;
  if (first === undefined) {
    if (start.final > 0) yield [];
    return;
  }
  for (const { word, to } of start.arcs)
    if (plainWord(word) === first) for (const after of pathsOf(to, rest)) yield [word, ...after];
}
