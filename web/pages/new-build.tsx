// Opens a build: for the demo engine, or for a new engine with a blank sheet of common-practice limits, marked so.
import { useState } from "preact/hooks";
import { v7 } from "uuid";
import { stampEvent } from "../../extractors/bench/index.ts";
import { RINGS } from "../../shared/places/places.ts";
import { blankSpec } from "../../shared/spec/blank.ts";
import { EXAMPLES } from "../../shared/spec/examples/index.ts";
import { type KIND_VALVES, type Kind, type KindChoice, kindEngine, withCylinders } from "../../shared/spec/kinds.ts";
import { readSpecFile } from "../../shared/spec/read.ts";
import { checkSheet } from "../../shared/spec/sense.ts";
import type { UnitSystem } from "../../shared/spec/sizes.ts";
import type { Engine, Spec } from "../../shared/spec/spec.ts";
import { linkTo } from "../route.ts";
import { bench } from "../store/bench.ts";
import { isoWithOffset } from "../store/clock.ts";
import { person } from "../store/device.ts";

type Choice<T extends string> = readonly (readonly [T, string])[];
const KIND_NAMES: Choice<Kind> = [
  ["four", "four in line"],
  ["six", "six in line"],
  ["single", "single"],
  ["twin", "opposed twin"],
  ["v8", "V eight"],
];
const UNITS: Choice<UnitSystem> = [
  ["inch", "inch"],
  ["metric", "metric"],
];
const VALVES: Choice<keyof typeof KIND_VALVES> = [
  ["side", "in the block, at the side"],
  ["overhead", "overhead, pushrods"],
  ["overhead-cam", "overhead cam"],
  ["ports", "none: two-stroke"],
];
const BEARINGS: Choice<NonNullable<KindChoice["bearings"]>> = [
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
  ["total_loss", "total loss"],
];

const text = (fields: FormData, name: string) => String(fields.get(name) ?? "").trim();
const optional = (fields: FormData, name: string) => (text(fields, name) === "" ? {} : { [name]: text(fields, name) });

/** The sheet of a new engine from the form's fields. @throws RangeError with the field's name when one is not good */
function sheetFrom(fields: FormData, choice: KindChoice): Spec {
  const count = (name: string) => Number(text(fields, name));
  const spec = blankSpec({
    id: text(fields, "engine")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-|-$/g, "")
      .slice(0, 60),
    name: text(fields, "engine"),
    bore: text(fields, "bore"),
    stroke: text(fields, "stroke"),
    units: choice.units ?? "inch",
    ...optional(fields, "mainJournal"),
    ...optional(fields, "crankpin"),
    ...optional(fields, "pin"),
    materials: { block: "grey_iron", piston: text(fields, "piston"), crank: "steel" },
    engine: {
      ...withCylinders(kindEngine(choice), count("cylinders")),
      mains: count("mains"),
      rings: RINGS.filter((ring) => fields.getAll("rings").includes(ring)),
      firingOrder: text(fields, "firingOrder").split(/\D+/).filter(Boolean).map(Number),
      oiling: text(fields, "oiling") as Engine["oiling"],
      headNuts: count("headNuts"),
    },
  });
  const checked = checkSheet(spec);
  if (checked.ok) return spec;
  throw new RangeError(`${checked.path.filter((step) => typeof step === "string").join(" ") || "sheet"}: ${checked.say}`);
}

type Start = "blank" | "file" | keyof typeof EXAMPLES;

export function NewBuild() {
  const [start, setStart] = useState<Start>("blank");
  const [choice, setChoice] = useState<KindChoice>({ kind: "four", units: "inch", bearings: "poured", valves: "side" });
  const [file, setFile] = useState<Spec>();
  const [trouble, setTrouble] = useState("");
  const take = async (picked: File | undefined) => {
    setFile(undefined);
    if (picked === undefined) return;
    const read = readSpecFile(await picked.text(), picked.name);
    if (read.ok) setFile(read.spec);
    setTrouble(read.ok ? "" : (read.errors[0]?.say ?? "Expected a spec sheet, got none"));
  };
  const open = async (submit: SubmitEvent) => {
    submit.preventDefault();
    const fields = new FormData(submit.currentTarget as HTMLFormElement);
    const held = bench.value;
    if (held === undefined) return;
    try {
      const spec = start === "file" ? file : start === "blank" ? sheetFrom(fields, choice) : EXAMPLES[start];
      if (spec === undefined) throw new RangeError("Expected a sheet's file, got none that can be used");
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
          <select value={start} onChange={(change) => setStart(change.currentTarget.value as Start)}>
            <option value="blank">blank, with common-practice limits</option>
            <option value="file">from a file</option>
            {Object.entries(EXAMPLES).map(([kind, { name }]) => (
              <option key={kind} value={kind}>
                the invented {name}'s
              </option>
            ))}
          </select>
        </label>
        {start === "blank" ? <EngineFields choice={choice} setChoice={setChoice} /> : null}
        {start === "file" ? (
          <label>
            Sheet, YAML or JSON
            <input type="file" accept=".yaml,.yml,.json" onChange={(change) => void take(change.currentTarget.files?.[0])} />
          </label>
        ) : null}
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
  /** A length, which may have its unit behind it. */
  readonly size?: boolean;
}

function Field({ name, label, required = false, value = "", decimal = false, size = false }: FieldProps) {
  const shape = decimal
    ? { inputMode: "decimal" as const, pattern: "[0-9]*\\.?[0-9]+" }
    : size
      ? { inputMode: "decimal" as const, pattern: "[0-9]*\\.?[0-9]+ ?(mm|in)?" }
      : {};
  return (
    <label>
      {label}
      {/* A new default makes a new field, so that another kind's numbers stand in it. */}
      <input key={value} name={name} maxLength={120} required={required} defaultValue={value} {...shape} />
    </label>
  );
}

interface PickProps<T extends string> {
  readonly name: string;
  readonly label: string;
  readonly rows: Choice<T>;
  readonly value?: T | undefined;
  onPick?(value: T): void;
}

function Pick<T extends string>({ name, label, rows, value, onPick }: PickProps<T>) {
  const held = value === undefined ? {} : { value };
  return (
    <label>
      {label}
      <select name={name} {...held} onChange={(change) => onPick?.(change.currentTarget.value as T)}>
        {rows.map(([id, words]) => (
          <option key={id} value={id}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

interface EngineFieldsProps {
  readonly choice: KindChoice;
  setChoice(choice: KindChoice): void;
}

function EngineFields({ choice, setChoice }: EngineFieldsProps) {
  const engine = kindEngine(choice);
  const unit = choice.units === "metric" ? "mm" : "in";
  const pick =
    <K extends keyof KindChoice>(name: K) =>
    (value: NonNullable<KindChoice[K]>) =>
      setChoice({ ...choice, [name]: value });
  return (
    <>
      <Field name="engine" label="Engine" required />
      <Pick name="kind" label="Kind" rows={KIND_NAMES} value={choice.kind} onPick={pick("kind")} />
      <Pick name="units" label="Measured in" rows={UNITS} value={choice.units} onPick={pick("units")} />
      <Pick name="valves" label="Valves" rows={VALVES} value={choice.valves} onPick={pick("valves")} />
      <Pick name="bearings" label="Bearings" rows={BEARINGS} value={choice.bearings} onPick={pick("bearings")} />
      <Pick name="oiling" label="Oiling" rows={OILING} />
      <Pick name="piston" label="Pistons" rows={PISTONS} />
      <Field name="bore" label={`Standard bore, ${unit}`} size required />
      <Field name="stroke" label={`Stroke, ${unit}`} size required />
      <Field name="mainJournal" label={`Main journal, ${unit} (if known)`} size />
      <Field name="crankpin" label={`Crankpin, ${unit} (if known)`} size />
      <Field name="pin" label={`Piston pin, ${unit} (if known)`} size />
      <Field name="cylinders" label="Cylinders" value={String(engine.cylinders)} decimal required />
      <Field name="mains" label="Main bearings" value={String(engine.mains)} decimal required />
      <Field name="firingOrder" label="Firing order" value={engine.firingOrder.join(" ")} required />
      <Field name="headNuts" label="Nuts of a head" value={String(engine.headNuts)} decimal required />
      <fieldset>
        <legend>Rings of a piston</legend>
        {RINGS.map((ring) => (
          <label key={ring} class="check">
            <input type="checkbox" name="rings" value={ring} defaultChecked={engine.rings.includes(ring)} /> {ring}
          </label>
        ))}
      </fieldset>
    </>
  );
}
