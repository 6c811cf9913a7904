// Readings that stand but wait for a yes: repaired words, unusual values, odd digits, guesses, lists.
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import type { Draft } from "../measure/draft.ts";
import { mayBePlace } from "../measure/onlyPlace.ts";
import { rate } from "../measure/scale.ts";
import { numberOf } from "../numbers/decimal.ts";
import { isDigitRepair } from "../repair.ts";
import { asking, confirmWhere, question, type Refiner, type State } from "../state.ts";

const flagged = (draft: Draft, ...flags: readonly string[]): boolean => draft.flags.some((flag) => flags.includes(flag));

/** Two plausible readings of which neither is clearly better. */
export const confirmRival: Refiner = {
  name: "confirmRival",
  refine(state) {
    if (state.rivals.length === 0) return state;
    const options = [state.kept[0]?.draft, ...state.rivals].flatMap((draft) => (draft === undefined ? [] : [spoken(draft)]));
    return confirmWhere(asking(state, question("ambiguous", options)), "ambiguous", () => true);
  },
};

function spoken(draft: Draft): string {
  const place = Object.values(draft.place).join(" ");
  return `${QUANTITIES[draft.quantity].said} ${place} ${numberOf(draft.value.dec)} ${draft.value.unit}`.replace(/\s+/g, " ");
}

/**
 * One misheard digit or unit word in a plain sentence is read through; more, or a thousand for a thou, waits. So does a misheard digit
 * where no unit makes a figure of it: "end float to check".
 */
export const confirmRepaired: Refiner = {
  name: "confirmRepaired",
  refine(state) {
    const count = state.repairs.length;
    const digit = state.repairs.some(isDigitRepair);
    return confirmWhere(state, "repaired", (draft) => {
      const repairs = count + draft.expr.repairs;
      if (flagged(draft, "thousand") || state.grave) return true;
      return repairs > 1 || (digit && isShortAndBare(draft)) || (repairs > 0 && draft.value.fit !== "in");
    });
  },
};

/** A digit or two and no unit. */
const isShortAndBare = ({ value, expr }: Draft): boolean =>
  value.implied && expr.parts.length === 1 && /^\d{1,2}$/.test(expr.parts[0]?.figure.text ?? "");

/** Outside the plausible band: said back with the reading a -teen or -ty slip would have made of it. */
export const confirmOutOfBand: Refiner = {
  name: "confirmOutOfBand",
  refine(state) {
    let next = confirmWhere(state, "out_of_band", (draft) => draft.value.fit !== "in");
    for (const { draft } of state.kept) {
      if (draft.value.fit === "in") continue;
      const other = teenOrTen(draft, state);
      const options = other === undefined ? undefined : [String(numberOf(draft.value.dec)), other];
      next = asking(next, question("out_of_band", options, { quantity: draft.quantity, place: draft.place }));
    }
    return next;
  },
};

/** "fifty" may have been "fifteen": the other value, when that one is plausible. */
function teenOrTen(draft: Draft, state: Parameters<Refiner["refine"]>[0]): string | undefined {
  const { n, s } = draft.value.dec;
  const tens = Math.abs(n) % 10 === 0 && Math.abs(n) >= 30 && Math.abs(n) <= 90;
  const teens = Math.abs(n) >= 13 && Math.abs(n) <= 19;
  if (!tens && !teens) return undefined;
  const other = { n: (Math.sign(n) || 1) * (tens ? Math.abs(n) / 10 + 10 : (Math.abs(n) - 10) * 10), s };
  const fit = rate(other, draft.value.unit, QUANTITIES[draft.quantity], state.env.spec);
  return fit === "in" ? String(numberOf(other)) : undefined;
}

/** Read-outs with a digit too few, values finer than the gauge, points placed without being said. */
export const confirmDigits: Refiner = {
  name: "confirmDigits",
  refine(state) {
    let next = state;
    for (const { draft } of state.kept) {
      if (!flagged(draft, "too_coarse", "tail")) continue;
      next = asking(next, question("need_digits", undefined, { quantity: draft.quantity, place: draft.place }));
    }
    next = confirmWhere(next, "digits", (draft) => flagged(draft, "coarse", "too_coarse", "tail", "placed"));
    return confirmWhere(next, "too_fine", (draft) => finerThanGauge(draft));
  },
};

/** Finer than a ten-thousandth of an inch, or a micron; fractions of an inch are exact and stand. */
function finerThanGauge(draft: Draft): boolean {
  const { dec, unit } = draft.value;
  if (
    draft.expr.parts.some(
      (part) =>
        (part.figure.kind === "fraction" || part.figure.kind === "mixed") && (part.unit === "in" || part.unit === undefined),
    )
  ) {
    return false;
  }
  const places = unit === "in" ? 4 : unit === "mm" ? 3 : unit === "um" ? 0 : undefined;
  if (places === undefined) return false;
  const scaled = (dec.n / 10 ** dec.s) * 10 ** places;
  return Math.abs(scaled - Math.round(scaled)) > 1e-6;
}

/** What was not said and could be otherwise: the quantity guessed, the unit in doubt, pounds on a nut, the sign of a fit. */
export const confirmGuess: Refiner = {
  name: "confirmGuess",
  refine(state) {
    let next = state;
    for (const { draft } of state.kept) {
      if (draft.known !== "guess") continue;
      next = asking(next, question("which_quantity", [QUANTITIES[draft.quantity].said], { place: draft.place }));
    }
    next = confirmWhere(next, "guessed_quantity", (draft) => draft.known === "guess");
    next = confirmWhere(next, "unit", (draft) => flagged(draft, "unit_doubt", "pounds_doubt", "ten_thousandths"));
    next = confirmWhere(
      next,
      "place_or_figure",
      (draft) => flagged(draft, "place_swallowed", "stray_place") || mayBePlace(draft, state.tokens, state.env),
    );
    next = confirmWhere(
      next,
      "unit",
      (draft) => draft.value.implied && numberOf(draft.value.dec) <= (UNIT_WANTED[draft.quantity] ?? -1),
    );
    next = confirmWhere(next, "sign", (draft) => flagged(draft, "over_doubt", "sign_implied"));
    next = confirmWhere(next, "one_place", isOddOneOut);
    return confirmWhere(
      next,
      "context_number",
      (draft) => isBareNumber(draft) && !(state.env.correcting && isNoPlace(draft, state)),
    );
  },
};

/**
 * Figures up to these mean nothing for sure without their unit: "turns" and "slot" are everyday words too, and a ring's gap "at two" may
 * stand at two o'clock.
 */
const UNIT_WANTED: Readonly<Partial<Record<QuantityId, number>>> = {
  turning_torque: Number.POSITIVE_INFINITY,
  castle_nut_angle: Number.POSITIVE_INFINITY,
  ring_gap_clock: 12,
};

/** One cylinder bored, one pin ground, unlike the rest: all go to one size as a rule, so it is asked about. */
function isOddOneOut(draft: Draft): boolean {
  const { sign } = QUANTITIES[draft.quantity];
  if (sign !== "oversize" && sign !== "undersize") return false;
  return (["cylinder", "main", "rod"] as const).some((slot) => draft.place[slot] !== undefined && !draft.implied.includes(slot));
}

/** A number too large to have been a cylinder's. */
function isNoPlace(draft: Draft, state: State): boolean {
  return (draft.expr.parts[0]?.figure.dec.n ?? 0) > state.env.spec.engine.cylinders;
}

/** A whole number alone, with quantity, place and unit all from the context. */
function isBareNumber(draft: Draft): boolean {
  if (flagged(draft, "even")) return false;
  const part = draft.expr.parts[0];
  const spokenPlace = Object.keys(draft.place).some((slot) => !draft.implied.includes(slot));
  return (
    draft.known === "context" &&
    !spokenPlace &&
    part?.unit === undefined &&
    part?.figure.kind === "int" &&
    part.figure.text.length < 3
  );
}

/** A list is said back in full. */
export const confirmList: Refiner = {
  name: "confirmList",
  refine: (state) => confirmWhere(state, "list", (draft) => flagged(draft, "list", "list_short", "all")),
};

/** A bend or twist without the length it is over. */
export const confirmOver: Refiner = {
  name: "confirmOver",
  refine(state) {
    const lacks = (draft: Draft) => QUANTITIES[draft.quantity].over?.required === true && draft.over === undefined;
    let next = state;
    for (const { draft } of state.kept) {
      if (lacks(draft)) next = asking(next, question("need_length", undefined, { quantity: draft.quantity, place: draft.place }));
    }
    return confirmWhere(next, "need_length", lacks);
  },
};

/** Hedged words ("I think") and quantities that always wait. */
export const confirmHedged: Refiner = {
  name: "confirmHedged",
  refine(state) {
    const hedged = state.tokens.some((token) => token.sense.kind === "hedge");
    const next = hedged ? confirmWhere(state, "hedged", () => true) : state;
    return confirmWhere(next, "always", (draft) => QUANTITIES[draft.quantity].alwaysConfirm === true);
  },
};
