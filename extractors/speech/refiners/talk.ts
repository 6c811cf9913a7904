// Talk that is not for the book gives nothing at all, not even a question.
import { confirmWhere, question, type Refiner, type State } from "../state.ts";
import { isMostlyBench, isPlain, talkOf } from "../talk.ts";
import type { QuestionCode } from "../vocabulary/questions.ts";

/** Plain bench sentences pass; a full reading among a few stray words waits for a yes; the rest is dropped. */
export const refuseTalk: Refiner = {
  name: "refuseTalk",
  refine(state) {
    if (isQuery(state)) return { ...state, kept: [], questions: [] };
    // A guess at a quantity that its figure does not fit was no measurement.
    const talk = talkOf(state.tokens);
    if (state.kept.every(({ draft }) => draft.known === "guess" && draft.value.fit !== "in")) {
      const code = isPlain(talk) ? forTheBook(state) : undefined;
      return { ...state, kept: [], questions: code === undefined ? [] : [question(code)] };
    }
    if (isPlain(talk)) return state;
    const whole = state.kept.every(
      ({ draft }) =>
        draft.missing.length === 0 &&
        draft.value.fit !== "far" &&
        (draft.known === "named" || draft.known === "implied" || draft.known === "context") &&
        (draft.known === "named" || !draft.value.implied),
    );
    if (!whole || !isMostlyBench(talk)) return { ...state, kept: [], questions: [] };
    return confirmWhere(state, "stray_words", () => true);
  },
};

/** "is ring gap two top twelve thou" asks; it tells nothing. */
function isQuery({ tokens }: State): boolean {
  const [first, second] = tokens;
  if (first === undefined || second === undefined || !["is", "was", "are", "were"].includes(first.text)) return false;
  return (
    second.sense.num === undefined &&
    second.sense.kind !== "article" &&
    (second.sense.feat !== undefined || second.sense.noun !== undefined)
  );
}

/** What to ask of a guess that did not fit, when it was plainly said for the book: a named quantity, a place and a unit, or anything while a quantity is open. */
function forTheBook({ kept, tokens, env }: State): QuestionCode | undefined {
  const draft = kept[0]?.draft;
  if (env.context.quantity !== undefined) return "doubtful_number";
  if (draft?.expr.parts[0]?.unit === undefined) return undefined;
  if (draft.flags.includes("name_ignored")) return "impossible_unit";
  const counted = tokens.some((token, i) => token.sense.noun !== undefined && tokens[i + 1]?.sense.num !== undefined);
  return counted ? "which_quantity" : undefined;
}
