// Places that are missing, or that this engine does not have: a question each, with what there is to choose from.

import type { PlaceKey } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Draft } from "../measure/draft.ts";
import { along } from "../measure/list.ts";
import { asking, question, type Refiner, type State } from "../state.ts";
import type { QuestionCode } from "../vocabulary/questions.ts";

const CODES: Readonly<Partial<Record<PlaceKey, QuestionCode>>> = {
  cylinder: "which_cylinder",
  main: "which_main",
  rod: "which_rod",
  ring: "which_ring",
  valve: "which_valve",
  side: "which_side",
  fastener: "which_fastener",
  part: "which_part",
};

/** Code and options of the question for a slot a draft lacks. */
export function placeQuestion(draft: Draft, slot: PlaceKey, state: Pick<State, "env">): State["questions"][number] {
  const either = QUANTITIES[draft.quantity].needsOneOf;
  const bearing = either?.includes(slot) === true && either.includes("main");
  const weighed = either?.includes(slot) === true && !bearing;
  const code = bearing ? "which_bearing" : weighed ? "which_part" : (CODES[slot] ?? "which_place");
  const options = bearing ? ["main", "rod"] : weighed ? ["piston", "rod"] : along(slot, state.env.spec, draft.place).map(String);
  return question(code, options.length > 0 ? options : undefined, { quantity: draft.quantity, place: draft.place, slot });
}

/** A reading without its place is asked for, never stored. */
export const askMissingPlace: Refiner = {
  name: "askMissingPlace",
  refine(state) {
    let next = state;
    for (const { draft } of state.kept) {
      const slot = draft.missing[0] as PlaceKey | undefined;
      if (slot !== undefined) next = asking(next, placeQuestion(draft, slot, state));
    }
    return next === state ? state : { ...next, kept: next.kept.filter(({ draft }) => draft.missing.length === 0) };
  },
};

/** A four-cylinder engine has no cylinder five. */
export const askAbsentPlace: Refiner = {
  name: "askAbsentPlace",
  refine(state) {
    let next = state;
    for (const { draft } of state.kept) {
      const slot = draft.absent[0] as PlaceKey | undefined;
      if (slot === undefined) continue;
      const options = along(slot, state.env.spec, draft.place).map(String);
      next = asking(next, question("no_such_place", options, { quantity: draft.quantity, place: draft.place, slot }));
    }
    return next === state ? state : { ...next, kept: next.kept.filter(({ draft }) => draft.absent.length === 0) };
  },
};
