// Nothing unread: each word that names a place, a quantity, a number, a negation or a condition is part of a reading, or all of them wait.
import type { Place, PlaceKey } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Draft } from "../measure/draft.ts";
import { namesOf } from "../measure/names.ts";
import { BY_NOUN } from "../measure/place.ts";
import { asking, confirmWhere, question, type Refiner, type State } from "../state.ts";
import type { Noun, Sense, Token } from "../types.ts";
import { PLACE_LIKE } from "../vocabulary/names.ts";

/** Words of a sentence that no reading of it made use of: all wait for a yes, and the words are told. */
export const confirmAll: Refiner = {
  name: "confirmAll",
  refine(state) {
    const unused = unusedIn(state);
    return unused.length === 0 ? state : { ...confirmWhere(state, "stray_words", () => true), unused };
  },
};

function unusedIn({ kept, tokens }: State): readonly Token[] {
  const drafts = kept.map(({ draft }) => draft);
  // What was put right in the same breath is not read, and need not be.
  const corrected = tokens.some(({ sense }) => sense.kind === "neg");
  return tokens.filter((token, i) => {
    const { sense } = token;
    if (drafts.some((draft) => isInFigure(draft, i))) return false;
    if (sense.kind === "not") return true;
    if (sense.num !== undefined || sense.unit !== undefined)
      return !corrected && !isPlaced(sense, drafts) && sense.kind === undefined;
    return tells(sense) && !MEANINGS.some((means) => means(sense, drafts, tokens[i + 1]?.sense));
  });
}

/** Whether a word names a place, a quantity or a condition, whatever else it may be. */
const tells = ({ slots, noun, part, feat, condition, all, kind }: Sense): boolean =>
  kind === undefined && [slots, noun, part, feat, condition, all].some((part) => part !== undefined);

/**
 * "Oil pressure forty five": a quantity was named that the registry lacks, and the figure is not its neighbour's that the words about it
 * would suggest.
 */
export const refuseUnnamed: Refiner = {
  name: "refuseUnnamed",
  refine(state) {
    const drafts = state.kept.map(({ draft }) => draft);
    if (drafts.length === 0 || drafts.some(({ known }) => known === "named")) return state;
    // A part of a name is enough for what is open; anything else takes the whole.
    const open = drafts.filter(({ known }) => known === "context");
    const unused = state.tokens.filter(
      (token) => isName(token) && !isNamed(token.sense, open, undefined) && !isSign(token.sense, drafts, undefined),
    );
    return unused.length === 0 ? state : { ...asking(state, question("which_quantity")), kept: [], unused };
  },
};

/** A word that names a quantity, and no place. */
const isName = ({ sense: { feat, kind } }: Token): boolean => feat !== undefined && kind === undefined && !PLACE_LIKE.has(feat);

/** Part of the figure, or of the length that a force or a bend has with it. */
const isInFigure = ({ expr, over, to }: Draft, i: number): boolean =>
  i >= expr.from && i < (over === undefined ? expr.to : Math.max(expr.to, to));

const isPlaced = ({ num, slots }: Sense, drafts: readonly Draft[]): boolean => {
  const n = num !== undefined && "v" in num ? Number(num.v) : undefined;
  return drafts.some(
    ({ place }) =>
      slots?.some(isIn(place)) === true ||
      Object.values(place).includes(n as never) ||
      ((n ?? 0) > 0 && place.ring !== undefined),
  );
};

const isIn =
  (place: Place) =>
  ([slot, value]: readonly [PlaceKey, string | number]) =>
    place[slot] === value;

const isCounted = (noun: Noun, drafts: readonly Draft[]): boolean =>
  drafts.some(({ place }) => place.fastener === noun || BY_NOUN[noun].some((slot) => place[slot] !== undefined));

type Means = (sense: Sense, drafts: readonly Draft[], next: Sense | undefined) => boolean;

const isNamed: Means = ({ feat }, drafts) => feat !== undefined && drafts.some(({ quantity }) => namesOf(quantity).has(feat));

/** "Two thou short"; "five tenths clearance" of a fit is its sign. */
const isSign: Means = ({ feat, sign }, drafts) =>
  feat !== undefined &&
  (sign !== undefined || (feat === "clearance" && drafts.some(({ quantity }) => QUANTITIES[quantity].sign === "fit")));

/** What a word can have been used for. */
const MEANINGS: readonly Means[] = [
  ({ slots }, drafts) => slots !== undefined && drafts.some(({ place }) => slots.some(isIn(place))),
  ({ noun }, drafts) => noun !== undefined && isCounted(noun, drafts),
  ({ part }, drafts) => part !== undefined && drafts.some(({ place }) => place.part === part || place.fastener === part),
  isNamed,
  isSign,
  ({ condition }, drafts) => condition !== undefined && drafts.some((draft) => draft.condition === condition),
  ({ all }, drafts) => all !== undefined && drafts.some(({ flags }) => flags.includes("all")),
  // "Front main" is the first main.
  ({ ordinal, count }, drafts, next) =>
    (ordinal ?? count) !== undefined && next?.noun !== undefined && isCounted(next.noun, drafts),
];
