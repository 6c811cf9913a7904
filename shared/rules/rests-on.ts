// What a fit, gap or shim rests on: once its part has been cut to another size, a reading from before says nothing any more.
import { type LoggedReading, readingKey } from "../build/build.ts";
import { type Place, type PlaceKey, placeMatches } from "../places/places.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { RuleContext } from "./context.ts";
import { valueIn, within } from "./figures/pick.ts";
import { groundSet } from "./ground-set.ts";
import { at, figure } from "./text.ts";

interface RestRow {
  readonly readings: readonly QuantityId[];
  /** The slot that tells their parts apart; readings without it rest on none of this. */
  readonly slot: "cylinder" | "main" | "rod";
  readonly also?: readonly PlaceKey[];
  /** The size as it is measured, and as it is said to be cut. */
  readonly size: QuantityId;
  readonly cut?: QuantityId;
}

/** Common practice, no source: it follows from what each is the difference of. */
const ROWS: readonly RestRow[] = [
  { readings: ["ring_end_gap", "piston_clearance"], slot: "cylinder", size: "bore_diameter", cut: "bore_oversize" },
  { readings: ["bearing_clearance", "shim_thickness"], slot: "main", size: "main_journal_diameter", cut: "journal_undersize" },
  {
    readings: ["bearing_clearance", "shim_thickness", "rod_side_clearance"],
    slot: "rod",
    size: "crankpin_diameter",
    cut: "journal_undersize",
  },
  { readings: ["piston_clearance"], slot: "cylinder", size: "piston_skirt_diameter" },
  { readings: ["pin_fit_bush"], slot: "cylinder", size: "bush_id" },
  { readings: ["pin_fit_boss"], slot: "cylinder", size: "boss_id" },
  { readings: ["pin_fit_bush", "pin_fit_boss"], slot: "cylinder", size: "pin_diameter" },
  { readings: ["valve_guide_clearance"], slot: "cylinder", also: ["valve"], size: "guide_id" },
  { readings: ["valve_guide_clearance"], slot: "cylinder", also: ["valve"], size: "valve_stem_diameter" },
];

/** Steps of its usual gauge by which a size must differ to have been cut rather than read again (common practice, no source). */
const CUT_STEPS = 5;

const shared = (row: RestRow, place: Place): Place =>
  Object.fromEntries([row.slot, ...(row.also ?? [])].map((slot) => [slot, place[slot]])) as Place;

const isMine = (row: RestRow, place: Place): boolean => place[row.slot] !== undefined;

/** Whether a cut said of some place, or of a whole set, is one of this part. */
function cuts(row: RestRow, cut: LoggedReading, place: Place, context: RuleContext): boolean {
  const named = cut.reading.place;
  if (row.slot === "cylinder") return named.cylinder === undefined || named.cylinder === place.cylinder;
  if (named[row.slot] !== undefined) return named[row.slot] === place[row.slot];
  return groundSet(cut, context) === (row.slot === "main" ? "mains" : "crankpins");
}

const later = (a: LoggedReading, b: LoggedReading): boolean =>
  a.order > b.order && (a.utterance === undefined || a.utterance !== b.utterance);

/** What stood at a place when another reading was taken. */
function knownThen(quantity: QuantityId, place: Place, logged: LoggedReading, { build }: RuleContext): LoggedReading | undefined {
  return build.byKey
    .get(readingKey(quantity, place))
    ?.findLast((one) => !later(one, logged) && (one.status === "counted" || one.status === "superseded"));
}

/** The size as it was cut since, if it was: said to be cut, or read afresh as something else than before. */
function cutSince(row: RestRow, logged: LoggedReading, context: RuleContext): LoggedReading | undefined {
  const { place } = logged.reading;
  const said = row.cut === undefined ? [] : within(context, row.cut, {}).filter((cut) => cuts(row, cut, place, context));
  const cut = said.find((one) => {
    if (!later(one, logged)) return false;
    // The same step said again is no second cut.
    const known = knownThen(one.reading.quantity, one.reading.place, logged, context);
    return known === undefined || valueIn(known, "in") !== valueIn(one, "in");
  });
  if (cut !== undefined) return cut;
  const sizes = within(context, row.size, shared(row, place));
  const step = CUT_STEPS * QUANTITIES[row.size].resolution * (1 - 1e-9);
  const before = [...context.places(row.size)]
    .filter((where) => placeMatches(shared(row, place), where))
    .flatMap((where) => knownThen(row.size, where, logged, context) ?? [])
    .map((size) => valueIn(size, "in"));
  if (before.length === 0) return undefined;
  return sizes.find((size) => {
    if (!later(size, logged) || size.condition === "as_found") return false;
    return before.every((known) => Math.abs(known - valueIn(size, "in")) >= step);
  });
}

/** Why a reading no longer holds: what it rests on was cut to another size after it. Undefined while it holds. */
export function outdated(logged: LoggedReading, context: RuleContext): string | undefined {
  for (const row of ROWS) {
    if (!row.readings.includes(logged.reading.quantity) || !isMine(row, logged.reading.place)) continue;
    const size = cutSince(row, logged, context);
    if (size === undefined) continue;
    const { quantity, place } = size.reading;
    return `${QUANTITIES[quantity].label.toLowerCase()}${at(place)} is ${figure(valueIn(size, "in"), "in")} since`;
  }
  return undefined;
}

/** The readings, by quantity and place, that rest on what was just read. */
export function* restingOn(quantity: QuantityId, place: Place, context: RuleContext): Iterable<[QuantityId, Place]> {
  for (const row of ROWS) {
    if (row.size !== quantity && row.cut !== quantity) continue;
    for (const id of row.readings) {
      for (const where of context.places(id)) {
        if (!isMine(row, where)) continue;
        // A cut may be said of a whole set: who it is of is asked when it is looked at.
        if (row.cut === quantity || placeMatches(shared(row, where), place)) yield [id, where];
      }
    }
  }
}
