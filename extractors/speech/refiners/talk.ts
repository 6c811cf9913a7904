// Talk that is not for the book gives nothing at all, not even a question.
import { confirmWhere, type Refiner } from "../state.ts";
import { isMostlyBench, isPlain, talkOf } from "../talk.ts";

/** Plain bench sentences pass; a full reading among a few stray words waits or stands; the rest is dropped. */
export const refuseTalk: Refiner = {
  name: "refuseTalk",
  refine(state) {
    const talk = talkOf(state.tokens);
    if (isPlain(talk)) return state;
    const whole = state.kept.every(
      ({ draft }) =>
        draft.missing.length === 0 &&
        draft.value.fit !== "far" &&
        (draft.known === "named" || draft.known === "implied" || draft.known === "context") &&
        (draft.known === "named" || !draft.value.implied),
    );
    if (!whole || !isMostlyBench(talk)) return { ...state, kept: [], questions: [] };
    const explicit = state.kept.every(({ draft }) => draft.known === "named" && !draft.value.implied && draft.value.fit === "in");
    return explicit && talk.strong === 0 ? state : confirmWhere(state, "stray_words", () => true);
  },
};
