// One part of the sheet as a list of its rows; each is changed, moved or taken away in a form that its table of fields makes.
import { useState } from "preact/hooks";
import { type Row, rowsOf } from "../../shared/spec/edit/edit.ts";
import type { Part } from "../../shared/spec/edit/parts.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { bareDigits } from "../parts/figures.ts";
import { Writers } from "../parts/writers.tsx";
import { RowForm } from "./sheet-row.tsx";

interface PartProps {
  readonly part: Part;
  readonly spec: Spec;
  keep(spec: Spec, what: string, why: string): Promise<void>;
}

/** A new row is under no key yet. */
const NEW = Symbol("new");

export function SheetPart({ part, spec, keep }: PartProps) {
  const [open, setOpen] = useState<Row["key"] | typeof NEW>();
  const rows = rowsOf(spec, part);
  const done = async (changed: Spec | undefined, what: string, why: string) => {
    setOpen(undefined);
    if (changed !== undefined) await keep(changed, what, why);
  };
  return (
    <details class="sheet-part" open={part.id === "limits"}>
      <summary>
        {part.title}
        {part.shape === "one" ? "" : ` (${rows.length})`}
      </summary>
      <ul>
        {rows.map((row) => (
          <li key={`${row.key}`}>
            {open === row.key ? (
              <RowForm part={part} spec={spec} row={row} done={done} />
            ) : (
              <RowLine part={part} row={row} edit={() => setOpen(row.key)} />
            )}
          </li>
        ))}
      </ul>
      <Writers>
        {part.shape === "one" ? null : open === NEW ? (
          <RowForm part={part} spec={spec} row={undefined} done={done} />
        ) : (
          <button type="button" class="small-button" onClick={() => setOpen(NEW)}>
            Add a {part.one}
          </button>
        )}
      </Writers>
    </details>
  );
}

/** A row in a line: its fields that say something which its name does not, with their labels where they need one. */
const said = (part: Part, { name, flat }: Row): string =>
  part.fields
    .flatMap(({ at, label, kind, plain }) => {
      const value = flat[at] ?? "";
      const words = kind === "figure" ? bareDigits(value, flat.unit) : value.replaceAll("_", " ");
      return words === "" || words === name || at === "id" ? [] : [plain ? words : `${label} ${words}`];
    })
    .join(", ");

function RowLine({ part, row, edit }: { part: Part; row: Row; edit: () => void }) {
  return (
    <>
      <span class="row-said">
        <b>{row.name}</b> <span class="quiet">{said(part, row)}</span>
      </span>
      <Writers>
        <button type="button" class="small-button" onClick={edit} aria-label={`Change ${row.name}`}>
          Change
        </button>
      </Writers>
    </>
  );
}
