// The form of one row of the sheet: its fields from the part's table, the reason asked for, and the checks of the file before it is kept.
import { useId, useState } from "preact/hooks";
import { edited, emptyRow, type Flat, moved, type Row, rowsOf } from "../../shared/spec/edit/edit.ts";
import type { EditField, Part } from "../../shared/spec/edit/parts.ts";
import type { Checked } from "../../shared/spec/sense.ts";
import { isMetric } from "../../shared/spec/sizes.ts";
import type { Spec } from "../../shared/spec/spec.ts";

interface FormProps {
  readonly part: Part;
  readonly spec: Spec;
  /** Undefined for a row to be added. */
  readonly row: Row | undefined;
  done(changed: Spec | undefined, what: string, why: string): Promise<void>;
}

/** Units of a metric engine's new rows. */
const METRIC_UNITS: Readonly<Record<string, string>> = { limits: "mm", figures: "mm", fasteners: "N_m" };

function startOf(part: Part, spec: Spec, row: Row | undefined): Flat {
  if (row !== undefined) return row.flat;
  const unit = isMetric(spec) ? METRIC_UNITS[part.id] : undefined;
  return { ...emptyRow(part), ...(unit === undefined ? {} : { unit }) };
}

export function RowForm({ part, spec, row, done }: FormProps) {
  const [flat, setFlat] = useState<Flat>(() => startOf(part, spec, row));
  const free = part.names?.find((one) => !rowsOf(spec, part).some(({ key }) => key === one));
  const [name, setName] = useState(free ?? "");
  const [why, setWhy] = useState("");
  const [trouble, setTrouble] = useState("");
  const called = row?.name ?? (part.shape === "named" ? name : (flat.id ?? part.one)).replaceAll("_", " ");
  const key = row?.key ?? (part.shape === "named" ? name : undefined);
  const settle = async (result: Checked, what: string) => {
    if (why.trim() === "") return setTrouble("Expected a reason for the change, got none");
    if (!result.ok) return setTrouble(`${result.path.slice(2).join(" ") || part.one}: ${result.say}`);
    return await done(result.spec, `${called} is ${what}`, why.trim());
  };
  const naming: EditField = {
    at: "name",
    label: "name",
    kind: part.names === undefined ? "text" : "choice",
    choices: part.names ?? [],
  };
  return (
    <form
      class="row-form"
      onSubmit={(submit) => {
        submit.preventDefault();
        void settle(edited(spec, part, key, flat), row === undefined ? "added" : "changed");
      }}
    >
      {row === undefined && part.shape === "named" ? <FieldBox field={naming} of="new" value={name} change={setName} /> : null}
      {part.fields.map((field) => (
        <FieldBox
          key={field.at}
          field={field}
          of={called}
          value={flat[field.at] ?? ""}
          change={(value) => setFlat({ ...flat, [field.at]: value })}
        />
      ))}
      <FieldBox field={{ at: "why", label: "why it is changed", kind: "text" }} of={called} value={why} change={setWhy} />
      {trouble === "" ? null : <p class="warning">{trouble}</p>}
      <div class="row-buttons">
        <button type="submit" class="small-button">
          Keep
        </button>
        <Act words="Leave" act={() => done(undefined, "", "")} />
        {row === undefined || part.shape === "one" ? null : (
          <Act words="Take away" act={() => settle(edited(spec, part, row.key, undefined), "taken away")} />
        )}
        {part.id !== "plan" || row === undefined ? null : (
          <>
            <Act words="Earlier" act={() => settle(moved(spec, part, Number(row.key), -1), "moved")} />
            <Act words="Later" act={() => settle(moved(spec, part, Number(row.key), 1), "moved")} />
          </>
        )}
      </div>
    </form>
  );
}

function Act({ words, act }: { words: string; act: () => Promise<void> }) {
  return (
    <button type="button" class="small-button" onClick={() => void act()}>
      {words}
    </button>
  );
}

interface BoxProps {
  readonly field: EditField;
  /** What it is a field of. */
  readonly of: string;
  readonly value: string;
  change(value: string): void;
}

function FieldBox({ field, of, value, change }: BoxProps) {
  const id = useId();
  return (
    <div class="row-field">
      <label for={id}>{field.label}</label>
      <FieldInput id={id} field={field} of={of} value={value} change={change} />
    </div>
  );
}

function FieldInput({ id, field, of, value, change }: BoxProps & { readonly id: string }) {
  const name = `${of}, ${field.label}`;
  if (field.kind === "choice")
    return (
      <select id={id} aria-label={name} value={value} onChange={(event) => change(event.currentTarget.value)}>
        {(field.choices ?? []).map((one) => (
          <option key={one} value={one}>
            {one.replaceAll("_", " ") || "any"}
          </option>
        ))}
      </select>
    );
  if (field.kind === "yes") {
    const tick = (event: { currentTarget: HTMLInputElement }) => change(event.currentTarget.checked ? "yes" : "");
    return <input id={id} type="checkbox" aria-label={name} checked={value === "yes"} onChange={tick} />;
  }
  return (
    <input
      id={id}
      aria-label={name}
      value={value}
      maxLength={field.at === "note" ? 2000 : 300}
      inputMode={field.kind === "figure" || field.kind === "count" ? "decimal" : "text"}
      onInput={(event) => change(event.currentTarget.value)}
    />
  );
}
