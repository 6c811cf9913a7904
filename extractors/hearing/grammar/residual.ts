// A deterministic automaton in, one with fewer states that accepts the same sentences at the same cost out.
import type { State } from "./automaton.ts";

/** One word said: from a state to another, by number. */
export interface Way {
  readonly word: string;
  readonly to: number;
  readonly weight: number;
}

/** A state by what may follow; state 0 is where sentences start. Several ways may have the same word. */
export interface Residual {
  readonly ways: readonly Way[];
  /** Weight of stopping here; 0 when the sentence may not end here. */
  readonly final: number;
}

/** States that may stand for another, at most; each of them is one more way wherever that one was reached. */
const MOST_TOGETHER = 4;
/** Weights that differ by no more than this share are the same: a sixth of a natural-log unit of cost. */
const ALIKE = 0.04;

/** Stopping, among what may follow. */
const STOP = "";

/** What may follow, by word and the number of the state it leads to, and how usual it is. */
type Rest = Map<string, { readonly word: string; readonly to: number; readonly weight: number }>;

/** A state by its number, and how usual what follows from it is beside what it is a part of. */
type Share = readonly [number, number];

/** A kept state that is part of another: how usual it is beside that, and which of its ways are just as usual in both. */
interface Part {
  readonly share: Share;
  readonly same: readonly string[];
}

/**
 * The states that no few others together could stand for. In a deterministic automaton what may follow a word is one state, be it "thou"
 * or another digit or both; the recogniser spends a third of a look's time on states as such, whatever leads from them, so that here a
 * word may lead to several instead. After F. Denis, A. Lemay, A. Terlutte, "Residual finite state automata" (Fundamenta Informaticae 51,
 * 2002), of which this keeps those that it finds by their ways alone.
 */
export function residualsOf(start: State, order: readonly State[]): readonly Residual[] {
  const standsFor = new Map<State, readonly Share[]>();
  const kept: Rest[] = [];
  const having = new Map<string, number[]>();
  const keep = (rest: Rest): number => {
    for (const key of rest.keys()) {
      const known = having.get(key);
      if (known === undefined) having.set(key, [kept.length]);
      else known.push(kept.length);
    }
    return kept.push(rest) - 1;
  };
  for (const state of shortestFirst(order)) {
    const rest = restOf(state, standsFor, kept.length);
    const together = state === start ? undefined : coverOf(rest, kept, having);
    const top = Math.max(...[...rest.values()].map(({ weight }) => weight));
    standsFor.set(state, together ?? [[keep(scaled(rest, 1 / top)), top]]);
  }
  return reached(kept.map(residualOf), standsFor.get(start)?.[0]?.[0] ?? 0);
}

/** States in the order of the longest sentence that may follow. */
function shortestFirst(order: readonly State[]): readonly State[] {
  const longest = new Map<State, number>();
  const measure = (state: State): number => {
    const known = longest.get(state);
    if (known !== undefined) return known;
    // A loop is no longer than what is behind it.
    longest.set(state, 0);
    const length = Math.max(0, ...state.arcs.filter(({ to }) => to !== state).map(({ to }) => 1 + measure(to)));
    longest.set(state, length);
    return length;
  };
  const key = (state: State) => measure(state) * 10_000 + state.arcs.length;
  return [...order].sort((a, b) => key(a) - key(b));
}

/** What may follow a state, in terms of those kept; `own` is its own number, should it be kept. */
function restOf(state: State, standsFor: ReadonlyMap<State, readonly Share[]>, own: number): Rest {
  const rest: Rest = new Map();
  if (state.final > 0) rest.set(STOP, { word: STOP, to: own, weight: state.final });
  for (const arc of state.arcs)
    for (const [to, share] of standsFor.get(arc.to) ?? [[own, 1] as const]) {
      const key = `${arc.word}>${to}`;
      const weight = Math.max(rest.get(key)?.weight ?? 0, arc.weight * share);
      rest.set(key, { word: arc.word, to, weight });
    }
  return rest;
}

const scaled = (rest: Rest, by: number): Rest =>
  new Map([...rest].map(([key, way]) => [key, { ...way, weight: way.weight * by }] as const));

/** Kept states that together are just what `rest` is; undefined when there are no few such. */
function coverOf(rest: Rest, kept: readonly Rest[], having: ReadonlyMap<string, readonly number[]>): Share[] | undefined {
  const parts = partsOf(rest, kept, having);
  const open = new Set(rest.keys());
  const together: Share[] = [];
  while (open.size > 0 && together.length < MOST_TOGETHER) {
    let best: Part | undefined;
    let most = 0;
    for (const part of parts) {
      const count = part.same.filter((key) => open.has(key)).length;
      if (count > most) [best, most] = [part, count];
    }
    if (best === undefined) return undefined;
    together.push(best.share);
    for (const key of best.same) open.delete(key);
  }
  return open.size === 0 ? together : undefined;
}

/** Kept states all of whose ways are ways of `rest`. */
function partsOf(rest: Rest, kept: readonly Rest[], having: ReadonlyMap<string, readonly number[]>): Part[] {
  const shared = new Map<number, number>();
  for (const key of rest.keys()) for (const id of having.get(key) ?? []) shared.set(id, (shared.get(id) ?? 0) + 1);
  const parts: Part[] = [];
  for (const [id, count] of shared) {
    const part = kept[id];
    if (part === undefined || count < part.size) continue;
    const weightOf = (key: string) => rest.get(key)?.weight ?? 0;
    const share = Math.min(...[...part].map(([key, { weight }]) => weightOf(key) / weight));
    const same = [...part].filter(([key, { weight }]) => share * weight >= weightOf(key) * (1 - ALIKE)).map(([key]) => key);
    parts.push({ share: [id, share], same });
  }
  return parts;
}

const residualOf = (rest: Rest): Residual => ({
  ways: [...rest.values()].filter(({ word }) => word !== STOP),
  final: rest.get(STOP)?.weight ?? 0,
});

/** Those of the states that a sentence from `first` may come through, that one first, by their new numbers. */
export function reached(states: readonly Residual[], first: number): readonly Residual[] {
  const number = new Map([[first, 0]]);
  const order = [first];
  for (const id of order) for (const { to } of states[id]?.ways ?? []) if (!number.has(to)) number.set(to, order.push(to) - 1);
  return order.map((id) => ({
    ways: (states[id]?.ways ?? []).map((way) => ({ ...way, to: number.get(way.to) ?? 0 })),
    final: states[id]?.final ?? 0,
  }));
}
