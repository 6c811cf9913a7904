// Every sharing-out of a sentence's numbers, as element lists, cheapest first and bounded in number.
import type { Token } from "../types.ts";
import type { Element, Roles } from "./elements.ts";
import { rolesAt } from "./roles.ts";

export interface Reading {
  readonly elements: readonly Element[];
  readonly cost: number;
}

/** More ways than this are never looked at: a longer sentence is no utterance at a bench. */
const MOST = 48;

/** Read tokens[from, to) in every bounded way. */
export function sentences(tokens: readonly Token[], from: number, to: number): Reading[] {
  const runs = new Map<number, readonly Roles[] | undefined>();
  let states: { at: number; elements: Element[]; cost: number }[] = [{ at: from, elements: [], cost: 0 }];
  const done: Reading[] = [];
  while (states.length > 0) {
    const next: typeof states = [];
    for (const state of states) {
      if (state.at >= to) {
        done.push(state);
        continue;
      }
      const i = state.at;
      if (!runs.has(i)) runs.set(i, rolesAt(tokens, i));
      const run = runs.get(i);
      if (run === undefined) {
        state.elements.push({ t: "word", from: i, to: i + 1 });
        next.push({ at: i + 1, elements: state.elements, cost: state.cost });
        continue;
      }
      for (const role of run) {
        const last = role.elements[role.elements.length - 1] as Element;
        next.push({ at: last.to, elements: [...state.elements, ...role.elements], cost: state.cost + role.cost });
      }
    }
    // Keep the cheapest when a long string of numbers would multiply the ways beyond reason.
    states = next.length > MOST ? next.sort((a, b) => a.cost - b.cost).slice(0, MOST) : next;
  }
  return done;
}
