// Readings that cannot stand: approximate words, ranges, doubtful numbers, wrong signs. Each becomes a question.
import { asking, question, type Refiner, type State } from "../state.ts";
import type { QuestionCode } from "../vocabulary/questions.ts";

function refuse(state: State, code: QuestionCode, options?: readonly string[]): State {
  const about =
    state.kept[0] === undefined ? undefined : { quantity: state.kept[0].draft.quantity, place: state.kept[0].draft.place };
  return { ...asking(state, question(code, options, about)), kept: [] };
}

/** "about", "a couple": no figure was given. */
export const refuseApproximate: Refiner = {
  name: "refuseApproximate",
  refine(state) {
    const vague = state.tokens.some(
      (token, i) => (token.sense.kind === "approx" && !isIdleGood(state, i)) || token.sense.kind === "bound",
    );
    return vague ? refuse(state, "approximate") : state;
  },
};

/** "good" after all is said praises; before a number it means "and a bit". */
function isIdleGood(state: State, i: number): boolean {
  const token = state.tokens[i];
  if (token?.text !== "good" && token?.text !== "near" && token?.text !== "some") return false;
  const next = state.tokens[i + 1]?.sense;
  return next === undefined || (next.num === undefined && next.kind !== "article");
}

/** "between two and three", "two to three", "twelve or thirteen": a spec is a range, a reading never is. */
export const refuseRange: Refiner = {
  name: "refuseRange",
  refine(state) {
    const { tokens } = state;
    const range = tokens.some((token, i) => {
      if (token.sense.kind === "between") return true;
      const joins = token.sense.kind === "toward" || token.sense.kind === "or";
      if (!joins) return false;
      const before = tokens[i - 1]?.sense;
      const after = tokens[i + 1]?.sense;
      const number = before?.num !== undefined || before?.unit !== undefined;
      return number && (after?.num !== undefined || after?.kind === "article");
    });
    return range ? refuse(state, "range") : state;
  },
};

const DOUBTFUL: Readonly<Record<string, QuestionCode>> = {
  doubtful_half: "doubtful_number",
  hundred_thousandths: "doubtful_number",
  two_signs: "doubtful_number",
  impossible_unit: "impossible_unit",
  name_ignored: "impossible_unit",
  lost_number: "doubtful_number",
  two_figures: "doubtful_number",
  several: "range",
  too_fine: "too_fine",
  impossible_sign: "impossible_sign",
  scale_ask: "need_unit",
  unit_ask: "which_scale",
};

/** Numbers said so that they mean two things, units finer than any gauge, signs the quantity cannot carry. */
export const refuseDoubtful: Refiner = {
  name: "refuseDoubtful",
  refine(state) {
    for (const { draft } of state.kept) {
      for (const flag of draft.flags) {
        const code = DOUBTFUL[flag];
        if (code === undefined) continue;
        const metric = code === "need_unit" && state.env.shop.metric;
        return refuse(state, metric ? "which_scale" : code, metric || code !== "need_unit" ? undefined : ["thou", "tenths"]);
      }
    }
    return state;
  },
};

/** A value no scaling of which is anywhere near the quantity. */
export const refuseFar: Refiner = {
  name: "refuseFar",
  refine(state) {
    const far = state.kept.find(({ draft }) => draft.value.fit === "far")?.draft;
    if (far === undefined) return state;
    const part = far.expr.parts[0];
    // "chamber three": the place was said and its figure is still to come.
    const place = part?.unit === undefined && part?.figure.kind === "int" && part.figure.dec.n <= state.env.spec.engine.cylinders;
    return refuse(state, place ? "need_number" : "doubtful_number");
  },
};
