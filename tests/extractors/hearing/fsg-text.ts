// Sphinx finite-state grammar text read back, for what is asked of it.
import { apart } from "../../../extractors/hearing/words/joined.ts";

export interface Transition {
  readonly to: number;
  readonly weight: number;
  /** None for the end of a sentence. */
  readonly words: readonly string[];
}

export type FsgText = ReadonlyMap<number, readonly Transition[]>;

/** Transitions by the state they leave from, as the text has them. */
export function readFsg(fsg: string): FsgText {
  const from = new Map<number, Transition[]>();
  for (const [, at, to, weight, word] of fsg.matchAll(/^TRANSITION (\d+) (\d+) (\S+)(?: (\S+))?$/gm)) {
    const transition = { to: Number(to), weight: Number(weight), words: word === undefined ? [] : apart(word) };
    from.set(Number(at), [...(from.get(Number(at)) ?? []), transition]);
  }
  return from;
}
