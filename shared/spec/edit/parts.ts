// The parts of a sheet that can be changed by touch, as data: the rows of each and the fields of a row. From these tables come the
// page's forms and what the day book says of a change.
import { DECISION_RULE_NAMES } from "../../compute/conformance.ts";
import { FASTENERS } from "../../places/places.ts";
import { NOMINAL_KEYS, QUANTITY_IDS } from "../../quantities/types.ts";
import { FIGURES } from "../../rules/figures/figures.ts";
import { STEP_IDS } from "../../steps/steps.ts";
import { BEARING_KINDS, engineSchema } from "../engine.ts";
import { UNIT_SYSTEMS } from "../sizes.ts";
import { CONDITIONS, fastenerSchema, LIMIT_UNITS, proofSchema, sourceSchema } from "../spec.ts";

export interface EditField {
  /** Where it stands in the row: `accept.low`. */
  readonly at: string;
  readonly label: string;
  /**
   * How its text is read: a figure and a text stay as they are typed, a count is a number, words and counts are lists, a place is
   * slots (`ring=oil`), yes is ticked or not, and a choice is one of its own.
   */
  readonly kind: "text" | "figure" | "count" | "words" | "counts" | "place" | "yes" | "choice";
  readonly choices?: readonly string[];
  /** Says what it is without its label. */
  readonly plain?: true;
}

export interface Part {
  readonly id: string;
  /** Field of the sheet that holds its rows; the sheet itself where there is none. */
  readonly of?: "engine" | "nominals" | "figures" | "fasteners" | "limits" | "expected" | "proofs" | "plan";
  /** Rows are a list, are named, or there is one that is always there. */
  readonly shape: "list" | "named" | "one";
  readonly title: string;
  /** One of its rows, in words. */
  readonly one: string;
  readonly fields: readonly EditField[];
  /** Names that a named row may have; any where none are given. */
  readonly names?: readonly string[];
}

const ENGINE = engineSchema.shape;

const text = (at: string, label: string): EditField => ({ at, label, kind: "text" });
const figure = (at: string, label: string): EditField => ({ at, label, kind: "figure" });
const count = (at: string, label: string): EditField => ({ at, label, kind: "count" });
const words = (at: string, label: string): EditField => ({ at, label, kind: "words" });
const counts = (at: string, label: string): EditField => ({ at, label, kind: "counts" });
const choice = (at: string, label: string, choices: readonly string[]): EditField => ({ at, label, kind: "choice", choices });

const plain = (field: EditField): EditField => ({ ...field, plain: true });

const SOURCE = [
  plain(choice("source.kind", "from", sourceSchema.shape.kind.options)),
  plain(text("source.cite", "page or name")),
] as const;

export const PARTS: readonly Part[] = [
  {
    id: "limits",
    of: "limits",
    shape: "list",
    title: "Limits",
    one: "limit",
    fields: [
      text("id", "name"),
      plain(choice("on", "of", [...FIGURES.keys()].sort())),
      figure("accept.low", "good from"),
      figure("accept.high", "good to"),
      figure("reject.low", "out below"),
      figure("reject.high", "out above"),
      plain(choice("unit", "in", LIMIT_UNITS)),
      choice("perInchOf", "by the length of", ["", ...NOMINAL_KEYS]),
      choice("condition", "when", ["", ...CONDITIONS]),
      { at: "where", label: "where", kind: "place" },
      ...SOURCE,
    ],
  },
  {
    id: "nominals",
    of: "nominals",
    shape: "named",
    title: "Sizes",
    one: "size",
    names: NOMINAL_KEYS,
    fields: [words("", "standard, then the oversize")],
  },
  {
    id: "figures",
    of: "figures",
    shape: "named",
    title: "Figures for sums",
    one: "figure",
    fields: [plain(figure("value", "value")), plain(text("unit", "unit")), ...SOURCE],
  },
  {
    id: "fasteners",
    of: "fasteners",
    shape: "named",
    title: "Torques",
    one: "torque",
    names: FASTENERS,
    fields: [
      text("thread", "thread"),
      count("threadsPerInch", "threads to the inch"),
      figure("pitch", "or pitch, mm"),
      figure("majorDiameter", "diameter"),
      { at: "castle", label: "castle nuts", kind: "yes" },
      figure("low", "from"),
      figure("high", "to"),
      plain(choice("unit", "in", fastenerSchema.shape.unit.options)),
      words("stages", "stages"),
      figure("angle", "then by degrees"),
      counts("order", "order of the nuts"),
      figure("k", "nut factor K"),
      text("lubricant", "lubricant"),
      text("proof", "proof strength"),
      count("count", "how many"),
      ...SOURCE,
    ],
  },
  {
    id: "expected",
    of: "expected",
    shape: "list",
    title: "Readings asked for",
    one: "reading",
    fields: [
      choice("step", "at", STEP_IDS),
      choice("quantity", "of", QUANTITY_IDS),
      choice("condition", "when", ["", ...CONDITIONS]),
      words("each", "one for each"),
      { at: "where", label: "where", kind: "place" },
    ],
  },
  {
    id: "proofs",
    of: "proofs",
    shape: "list",
    title: "Photos asked for",
    one: "photo",
    fields: [
      text("id", "name"),
      choice("step", "at", STEP_IDS),
      plain(text("title", "of what")),
      choice("each", "one for each", proofSchema.shape.each.options),
      ...SOURCE,
    ],
  },
  {
    id: "plan",
    of: "plan",
    shape: "list",
    title: "Steps of the job",
    one: "step",
    fields: [choice("id", "step", STEP_IDS), text("title", "called"), words("after", "after"), words("hides", "covers")],
  },
  {
    id: "engine",
    of: "engine",
    shape: "one",
    title: "Engine",
    one: "engine",
    fields: [
      choice("layout", "valves", ENGINE.layout.options),
      choice("arrangement", "cylinders lie", ["", ...ENGINE.arrangement.unwrap().options]),
      count("cylinders", "cylinders"),
      count("mains", "main bearings"),
      counts("firingOrder", "firing order"),
      choice("bearings.main", "mains run in", BEARING_KINDS),
      choice("bearings.rod", "rods run in", BEARING_KINDS),
      choice("oiling", "oiling", ENGINE.oiling.options),
      choice("cooling", "cooling", ["", ...ENGINE.cooling.unwrap().options]),
      choice("ignition", "ignition", ["", ...ENGINE.ignition.unwrap().options]),
      choice("lash", "lash set by", ["", ...ENGINE.lash.unwrap().options]),
      choice("locking", "nuts locked by", ["", ...ENGINE.locking.unwrap().options]),
      count("rodNuts", "nuts of a rod"),
      count("mainNuts", "nuts of a main"),
      count("headNuts", "nuts of a head"),
    ],
  },
  {
    id: "sheet",
    shape: "one",
    title: "Sheet",
    one: "sheet",
    fields: [
      text("name", "name"),
      text("note", "note"),
      choice("units", "measured in", ["", ...UNIT_SYSTEMS]),
      choice("decision", "decided near a limit by", ["", ...DECISION_RULE_NAMES]),
      words("oversizes", "oversizes"),
      words("undersizes", "undersizes"),
      text("materials.block", "block of"),
      text("materials.piston", "pistons of"),
      text("materials.crank", "crank of"),
    ],
  },
];

/** A part by its id. @throws RangeError where there is none */
export function partNamed(id: string): Part {
  const part = PARTS.find((one) => one.id === id);
  if (part === undefined) throw new RangeError(`Expected a part of the sheet, got ${id}`);
  return part;
}
