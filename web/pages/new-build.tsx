// Opens a build: for the demo engine, or for a new engine with a blank sheet of common-practice limits, marked so.
import { useState } from "preact/hooks";
import { v7 } from "uuid";
import { stampEvent } from "../../extractors/bench/index.ts";
import { RINGS } from "../../shared/places/places.ts";
import { blankSpec } from "../../shared/spec/blank.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { type BearingKind, type Engine, type Spec, specSchema } from "../../shared/spec/spec.ts";
import { linkTo } from "../route.ts";
import { bench } from "../store/bench.ts";
import { isoWithOffset } from "../store/clock.ts";
import { person } from "../store/device.ts";

type Choice<T extends string> = readonly (readonly [T, string])[];
const LAYOUTS: Choice<Engine["layout"]> = [
  ["side_valve", "side valve"],
  ["overhead_valve", "overhead valve"],
  ["two_stroke", "two stroke"],
];
const BEARINGS: Choice<BearingKind> = [
  ["poured", "poured"],
  ["shell", "shells"],
  ["roller", "rollers"],
];
const PISTONS: Choice<string> = [
  ["grey_iron", "cast iron"],
  ["piston_alloy", "aluminium alloy"],
];
const OILING: Choice<Engine["oiling"]> = [
  ["splash", "splash"],
  ["pressure", "pressure"],
  ["splash_and_pressure", "splash and pressure"],
];

const text = (fields: FormData, name: string) => String(fields.get(name) ?? "").trim();
const optional = (fields: FormData, name: string) => (text(fields, name) === "" ? {} : { [name]: text(fields, name) });

/** The sheet of a new engine from the form's fields. @throws RangeError with the field's name when one is not good */
function sheetFrom(fields: FormData): Spec {
  const count = (name: string) => Number(text(fields, name));
  const rings = RINGS.filter((ring) => fields.getAll("rings").includes(ring));
  const spec = blankSpec({
    id: text(fields, "engine")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-|-$/g, "")
      .slice(0, 60),
    name: text(fields, "engine"),
    bore: text(fields, "bore"),
    stroke: text(fields, "stroke"),
    ...optional(fields, "mainJournal"),
    ...optional(fields, "crankpin"),
    ...optional(fields, "pin"),
    materials: { block: "grey_iron", piston: text(fields, "piston"), crank: "steel" },
    engine: {
      layout: text(fields, "layout") as Engine["layout"],
      cylinders: count("cylinders"),
      mains: count("mains"),
      rings,
      firingOrder: text(fields, "firingOrder").split(/\D+/).filter(Boolean).map(Number),
      numberedFrom: "front",
      bearings: text(fields, "bearings") as BearingKind,
      oiling: text(fields, "oiling") as Engine["oiling"],
      rodNuts: 2,
      mainNuts: 2,
      headNuts: count("headNuts"),
    },
  });
  const checked = specSchema.safeParse(spec);
  if (checked.success) return checked.data;
  const issue = checked.error.issues[0];
  throw new RangeError(`${issue?.path.join(" ") ?? "sheet"}: ${issue?.message ?? "not understood"}`);
}

export function NewBuild() {
  const [known, setKnown] = useState<"blank" | "demo">("blank");
  const [trouble, setTrouble] = useState("");
  const open = async (submit: SubmitEvent) => {
    submit.preventDefault();
    const fields = new FormData(submit.currentTarget as HTMLFormElement);
    const held = bench.value;
    if (held === undefined) return;
    try {
      const spec = known === "demo" ? DEMO_SPEC : sheetFrom(fields);
      const build = v7();
      const stamp = { build, device: held.device.id, by: person.value, now: () => isoWithOffset(new Date()), nextSeq: () => 0 };
      const event = stampEvent(stamp, "build.opened", { name: text(fields, "name"), ...optional(fields, "customer"), spec });
      await held.outbox.add([{ kind: "event", id: event.id, build, at: event.at, event }]);
      await held.outbox.drain();
      location.hash = linkTo("book", build);
    } catch (error) {
      setTrouble(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <div class="page new-build">
      <h1>A new build</h1>
      <form class="keep-form" onSubmit={(submit) => void open(submit as SubmitEvent)}>
        <Field name="name" label="Name of the build" required />
        <Field name="customer" label="For whom" />
        <label>
          Spec sheet
          <select value={known} onChange={(change) => setKnown(change.currentTarget.value === "demo" ? "demo" : "blank")}>
            <option value="blank">blank, with common-practice limits</option>
            <option value="demo">the invented demo engine's</option>
          </select>
        </label>
        {known === "blank" ? <EngineFields /> : null}
        {trouble === "" ? null : <p class="warning">{trouble}</p>}
        <button type="submit" class="stamp-button">
          Open it
        </button>
      </form>
    </div>
  );
}

interface FieldProps {
  readonly name: string;
  readonly label: string;
  readonly required?: boolean;
  readonly value?: string;
  readonly decimal?: boolean;
}

function Field({ name, label, required = false, value = "", decimal = false }: FieldProps) {
  const shape = decimal ? { inputMode: "decimal" as const, pattern: "[0-9]*\\.?[0-9]+" } : {};
  return (
    <label>
      {label}
      <input name={name} maxLength={120} required={required} defaultValue={value} {...shape} />
    </label>
  );
}

function Pick({ name, label, rows }: { name: string; label: string; rows: Choice<string> }) {
  return (
    <label>
      {label}
      <select name={name}>
        {rows.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

function EngineFields() {
  return (
    <>
      <Field name="engine" label="Engine" required />
      <Pick name="layout" label="Layout" rows={LAYOUTS} />
      <Field name="cylinders" label="Cylinders" value="4" decimal required />
      <Field name="mains" label="Main bearings" value="3" decimal required />
      <Field name="firingOrder" label="Firing order" value="1 3 4 2" required />
      <Pick name="bearings" label="Bearings" rows={BEARINGS} />
      <Pick name="piston" label="Pistons" rows={PISTONS} />
      <Pick name="oiling" label="Oiling" rows={OILING} />
      <Field name="headNuts" label="Head nuts" value="14" decimal required />
      <fieldset>
        <legend>Rings of a piston</legend>
        {RINGS.map((ring) => (
          <label key={ring} class="check">
            <input type="checkbox" name="rings" value={ring} defaultChecked={ring !== "third"} /> {ring}
          </label>
        ))}
      </fieldset>
      <Field name="bore" label="Standard bore, in" decimal required />
      <Field name="stroke" label="Stroke, in" decimal required />
      <Field name="mainJournal" label="Main journal, in (if known)" decimal />
      <Field name="crankpin" label="Crankpin, in (if known)" decimal />
      <Field name="pin" label="Piston pin, in (if known)" decimal />
    </>
  );
}
