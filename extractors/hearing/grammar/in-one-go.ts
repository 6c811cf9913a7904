// States of a grammar in, the same without those that only stand between words that are said in one go out.
import { GRAMMAR_WEIGHT, WORD_PRICE } from "../engine/decoder.ts";
import { joinOf } from "../words/joined.ts";
import { type Residual, reached, type Way } from "./residual.ts";

/** The recogniser takes its price for a word once for words joined into one: the weight that costs the others'. */
const JOINT_WEIGHT = WORD_PRICE ** (1 / GRAMMAR_WEIGHT);

/** Ways whose words, with all that may follow them, are entries of the dictionary together take these in their place. */
export function inOneGo(states: readonly Residual[]): readonly Residual[] {
  const joined = states.map(({ ways, final }) => ({ ways: ways.flatMap((way) => entriesFor(way, states) ?? [way]), final }));
  return reached(joined, 0);
}

/** A way's word together with each of those that may follow; undefined where one of them makes no entry with it. */
function entriesFor(way: Way, states: readonly Residual[]): readonly Way[] | undefined {
  const entries: Way[] = [];
  const follow = (words: readonly string[], { to, weight }: Way): boolean => {
    const state = states[to];
    if (state === undefined || state.final > 0 || !joinOf(words).isBeginning) return false;
    return state.ways.every((next) => {
      const longer = [...words, next.word];
      const { entry } = joinOf(longer);
      const together = weight * next.weight * JOINT_WEIGHT;
      if (entry !== undefined) return entries.push({ word: entry, to: next.to, weight: together }) > 0;
      return follow(longer, { word: next.word, to: next.to, weight: together });
    });
  };
  return follow([way.word], way) ? entries : undefined;
}
