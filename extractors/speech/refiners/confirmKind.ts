// A figure of something that this engine has not got was misheard, or the sheet is wrong: it waits for a yes.
import { NEEDED_FOR } from "../../../shared/quantities/of-kind.ts";
import { suits } from "../../../shared/spec/engine.ts";
import { asking, mapKept, question, type Refiner } from "../state.ts";

export const confirmKind: Refiner = {
  name: "confirmKind",
  refine(state) {
    const { engine } = state.env.spec;
    const strange = state.kept.filter(({ draft }) => !suits(engine, NEEDED_FOR[draft.quantity]));
    const [first] = strange;
    if (first === undefined) return state;
    const asked = asking(
      state,
      question("not_of_engine", undefined, { quantity: first.draft.quantity, place: first.draft.place }),
    );
    return mapKept(asked, (kept) => (strange.includes(kept) ? { ...kept, because: kept.because ?? "not_of_engine" } : kept));
  },
};
