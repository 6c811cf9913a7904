// One row of a sheet changed, added, taken away or moved, with the checks of the file; and what differs between two sheets, in words.
import { type Place, placeKey } from "../../places/places.ts";
import { readPlaceKey } from "../../rules/key.ts";
import { writtenPlan } from "../../steps/plan.ts";
import { type Checked, checkSheet } from "../sense.ts";
import type { Spec } from "../spec.ts";
import { type EditField, PARTS, type Part } from "./parts.ts";

/** A row as a form has it: text by field. */
export type Flat = Readonly<Record<string, string>>;

export interface Row {
  /** Its number in a list, or its name. */
  readonly key: number | string;
  /** As it is spoken of: "rod clearance". */
  readonly name: string;
  readonly flat: Flat;
}

type Raw = Record<string, unknown>;

const inside = (row: unknown, at: string): unknown =>
  at === "" ? row : at.split(".").reduce<unknown>((value, step) => (value as Raw | undefined)?.[step], row);

function shown(value: unknown, { kind }: EditField): string {
  if (value === undefined || value === false) return "";
  if (kind === "place") return placeKey(value as Place);
  if (value === true) return "yes";
  return Array.isArray(value) ? value.join(" ") : String(value);
}

const flatOf = (row: unknown, { fields }: Part): Flat =>
  Object.fromEntries(fields.map((field) => [field.at, shown(inside(row, field.at), field)]));

/** An empty row of a part, its choices at the first. */
export const emptyRow = ({ fields }: Part): Flat => Object.fromEntries(fields.map(({ at, choices }) => [at, choices?.[0] ?? ""]));

const split = (text: string): string[] => text.split(/[\s,]+/).filter((word) => word !== "");

/** What a field's text says; undefined for nothing, and the text itself where it cannot be read so, for the checks to refuse. */
function readField(text: string, { kind }: EditField): unknown {
  const typed = text.trim();
  // Lengths with a unit are one word each: "68.00 mm 68.50 mm".
  if (kind === "words") return typed === "" ? undefined : split(typed.replace(/ (mm|in)\b/g, "$1"));
  if (kind === "counts") return typed === "" ? undefined : split(typed.replaceAll("-", " ")).map(Number);
  if (kind === "yes") return typed === "yes";
  if (typed === "") return undefined;
  if (kind === "count") return Number(typed);
  return kind === "place" ? readPlace(typed) : typed;
}

/** `ring=oil;cylinder=2` as a place; text with a slot that there is not stays text. */
function readPlace(typed: string): Place | string {
  const pairs = split(typed.replaceAll(";", " "));
  const place = readPlaceKey(pairs.join(";"));
  return Object.keys(place).length === pairs.length ? place : typed;
}

/** Fields that a row always has, though nothing stands in them. */
const ALWAYS: Readonly<Record<string, unknown>> = {
  each: [],
  after: [],
  firingOrder: [],
  oversizes: [],
  undersizes: [],
  unit: "",
};

/** A row with the fields of a form put into it; fields that the form has not got stay. */
function withFields(row: unknown, flat: Flat, { fields }: Part): unknown {
  if (fields[0]?.at === "") return readField(flat[""] ?? "", fields[0]) ?? [];
  const next = structuredClone((row ?? {}) as Raw);
  for (const field of fields) {
    const steps = field.at.split(".");
    const last = steps.pop() ?? "";
    let holder = next;
    for (const step of steps) {
      if (holder[step] === undefined || typeof holder[step] !== "object") holder[step] = {};
      holder = holder[step] as Raw;
    }
    const value = readField(flat[field.at] ?? "", field) ?? ALWAYS[field.at];
    if (value === undefined) delete holder[last];
    else holder[last] = value;
  }
  // A group that lost all its fields is not there: no reject limit is no empty one.
  for (const [name, value] of Object.entries(next))
    if (
      name !== "accept" &&
      value !== null &&
      typeof value === "object" &&
      !Array.isArray(value) &&
      Object.keys(value).length === 0
    )
      delete next[name];
  return next;
}

const nameOf = (flat: Flat, key: number | string, { id }: Part): string => {
  if (id === "expected") {
    const more = [flat.where, flat.condition].filter((part) => part !== "" && part !== undefined);
    return [`${flat.quantity} at ${flat.step}`, ...more].join(", ").replaceAll("_", " ");
  }
  return (flat.id ?? String(key)).replaceAll("_", " ");
};

function holderOf(spec: Spec, { of }: Part): unknown {
  if (of === undefined) return spec;
  if (of === "plan") return spec.plan ?? writtenPlan(spec);
  if (of === "engine") {
    const { bearings } = spec.engine;
    return typeof bearings === "string" ? { ...spec.engine, bearings: { main: bearings, rod: bearings } } : spec.engine;
  }
  return spec[of];
}

/** The rows of a part of a sheet. */
export function rowsOf(spec: Spec, part: Part): Row[] {
  const holder = holderOf(spec, part);
  if (part.shape === "one") return [{ key: "", name: part.one, flat: flatOf(holder, part) }];
  return Object.entries(holder as object).map(([name, row]) => {
    const key = part.shape === "list" ? Number(name) : name;
    const flat = flatOf(row, part);
    return { key, name: nameOf(flat, key, part), flat };
  });
}

const put = (spec: Spec, { of }: Part, holder: unknown): unknown => (of === undefined ? holder : { ...spec, [of]: holder });

/**
 * A sheet with one row of it changed; added, where `key` is none there is; taken away, where `flat` is undefined.
 * A named row is added under `key`. The version is the caller's to count up.
 */
export function edited(spec: Spec, part: Part, key: number | string | undefined, flat: Flat | undefined): Checked {
  const holder = holderOf(spec, part);
  if (part.shape === "one") return checkSheet(put(spec, part, withFields(holder, flat ?? {}, part)), spec);
  if (part.shape === "named") {
    const { [String(key)]: row, ...rest } = holder as Raw;
    if (key === undefined || key === "") return { ok: false, path: [], say: `Expected a name for the ${part.one}, got none` };
    return checkSheet(
      put(spec, part, flat === undefined ? rest : { ...(holder as Raw), [key]: withFields(row, flat, part) }),
      spec,
    );
  }
  const rows = [...(holder as unknown[])];
  if (key === undefined) rows.push(withFields(undefined, flat ?? {}, part));
  else if (flat === undefined) rows.splice(Number(key), 1);
  else rows[Number(key)] = withFields(rows[Number(key)], flat, part);
  return checkSheet(
    put(spec, part, flat === undefined && part.of === "plan" ? withoutStep(rows as Plan, spec, Number(key)) : rows),
    spec,
  );
}

type Plan = NonNullable<Spec["plan"]>;

/** Steps that came after the one taken away come after what it came after. */
function withoutStep(rows: Plan, spec: Spec, key: number): Plan {
  const gone = (spec.plan ?? writtenPlan(spec))[key];
  if (gone === undefined) return rows;
  const instead = (after: Plan[number]["after"]) => [...new Set(after.flatMap((id) => (id === gone.id ? gone.after : [id])))];
  return rows.map((row) => ({ ...row, after: instead(row.after), hides: (row.hides ?? []).filter((id) => id !== gone.id) }));
}

/** A row of a list one place earlier or later; as it was where it stands at the end already. */
export function moved(spec: Spec, part: Part, key: number, by: -1 | 1): Checked {
  const rows = [...(holderOf(spec, part) as unknown[])];
  const [one, other] = [rows[key], rows[key + by]];
  if (one !== undefined && other !== undefined) {
    rows[key] = other;
    rows[key + by] = one;
  }
  return checkSheet(put(spec, part, rows), spec);
}

function inAnotherOrder(old: readonly Row[], now: readonly Row[]): boolean {
  const [before, after] = [old, now].map((rows) => rows.map(({ name }) => name)) as [string[], string[]];
  const stayed = after.filter((name) => before.includes(name));
  return before.filter((name) => stayed.includes(name)).some((name, i) => name !== stayed[i]);
}

/** What a sheet has that the one before it had otherwise: "limit main clearance: good to 0.0035, was 0.0025". */
export function changesBetween(before: Spec, after: Spec): string[] {
  return PARTS.flatMap((part) => {
    const [old, now] = [before, after].map((spec) => rowsOf(spec, part)) as [Row[], Row[]];
    const was = (name: string) => old.find((row) => row.name === name);
    const label = (name: string) => (part.shape === "one" ? part.one : `${part.one} ${name}`);
    return [
      ...now.flatMap(({ name, flat }) => {
        const row = was(name);
        if (row === undefined) return [`${label(name)} added`];
        return part.fields
          .filter(({ at }) => row.flat[at] !== flat[at])
          .map(
            (field) => `${label(name)}: ${field.label} ${flat[field.at] || "nothing"}, was ${row.flat[field.at] || "nothing"}`,
          );
      }),
      ...old.filter(({ name }) => !now.some((row) => row.name === name)).map(({ name }) => `${label(name)} taken away`),
      ...(inAnotherOrder(old, now) ? [`${part.title.toLowerCase()} in another order`] : []),
    ];
  });
}
