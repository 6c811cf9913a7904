// Readings that only hold when taken after another: lash after the head is tight, ring gap after the bore is finished.
import type { LoggedReading } from "../build/build.ts";
import { type Place, type PlaceKey, placeMatches } from "../places/places.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { Condition, Engine } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import { within } from "./figures/pick.ts";
import type { Rule, Subject } from "./rule.ts";
import { at } from "./text.ts";

interface OrderRow {
  readonly id: string;
  readonly reading: QuantityId;
  readonly after: QuantityId;
  /** Slots that both must share. */
  readonly sharing: readonly PlaceKey[];
  readonly afterWhere?: Place;
  readonly condition?: Condition;
  readonly layouts?: readonly Engine["layout"][];
  /** It is also said when the other has not been read at all. */
  readonly needed: boolean;
  readonly because: string;
}

/** Common practice, no source. */
const ROWS: readonly OrderRow[] = [
  {
    id: "lash_after_head",
    reading: "valve_lash",
    after: "fastener_torque",
    sharing: [],
    afterWhere: { fastener: "head" },
    condition: "final",
    // On a side-valve engine the tappets are in the block and the head does not move them.
    layouts: ["overhead_valve"],
    needed: true,
    because: "tightening the head moves the rocker gear",
  },
  {
    id: "gap_after_bore",
    reading: "ring_end_gap",
    after: "bore_diameter",
    sharing: ["cylinder"],
    condition: "final",
    needed: false,
    because: "the gap follows the bore by pi times its change",
  },
  {
    id: "alignment_after_bush",
    reading: "rod_bend",
    after: "bush_id",
    sharing: ["rod"],
    needed: false,
    because: "reaming the bush moves the pin's axis",
  },
];

/** A rod's number is its cylinder's. */
const shared = (row: OrderRow, place: Place): Place => {
  const pairs = row.sharing.map((slot) => [row.after === "bush_id" ? "cylinder" : slot, place[slot]]);
  return { ...row.afterWhere, ...Object.fromEntries(pairs) } as Place;
};

const applies = (row: OrderRow, { spec }: RuleContext): boolean => row.layouts?.includes(spec.engine.layout) ?? true;

function* subjectsOf(quantity: string, place: Place, context: RuleContext): Iterable<Subject> {
  for (const row of ROWS) {
    if (!applies(row, context)) continue;
    if (row.reading === quantity) yield { place, tag: row.id };
    if (row.after !== quantity) continue;
    for (const where of context.places(row.reading)) {
      if (placeMatches(shared(row, where), place)) yield { place: where, tag: row.id };
    }
  }
}

const newest = (readings: readonly LoggedReading[]): LoggedReading | undefined =>
  readings.reduce<LoggedReading | undefined>(
    (best, logged) => (best === undefined || logged.order > best.order ? logged : best),
    undefined,
  );

export const READING_ORDER: Rule = {
  id: "reading_order",
  title: "Readings taken after what they rest on",
  subjects: (key, context) => (key.kind === "reading" ? subjectsOf(key.name, key.place, context) : []),
  check: ({ place, tag }, context) => {
    const row = ROWS.find((candidate) => candidate.id === tag);
    if (row === undefined || !applies(row, context)) return undefined;
    const logged = context.latest(
      row.reading,
      place,
      row.condition === "final" && row.reading === "valve_lash" ? "final" : undefined,
    );
    if (logged === undefined || logged.stale !== undefined) return undefined;
    const other = newest(
      within(context, row.after, shared(row, place), row.after === "bore_diameter" ? row.condition : undefined),
    );
    const sameBreath = other?.utterance !== undefined && other.utterance === logged.utterance;
    const inOrder = other === undefined ? !row.needed : sameBreath || other.order < logged.order;
    if (other === undefined && inOrder) return undefined;
    const names = `${QUANTITIES[row.reading].label}${at(place)}`;
    const first = row.afterWhere?.fastener === "head" ? "head torque" : QUANTITIES[row.after].label.toLowerCase();
    return {
      rule: "reading_order",
      verdict: inOrder ? "pass" : "warn",
      place,
      value: null,
      limit: null,
      unit: null,
      why: inOrder ? `${names} was read after the ${first}.` : `${names} was read before the ${first}: ${row.because}.`,
      source: "common practice, no source",
      ...(inOrder ? {} : { remedy: other === undefined ? `Read it again once the ${first} is logged.` : "Read it again." }),
      evidence: [...logged.evidence, ...(other?.evidence ?? [])],
    };
  },
};
