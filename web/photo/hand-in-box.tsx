// Pictures from files or the phone's own camera, several at once, each with how far it has come: read, kept here, in the shop.
import { useState } from "preact/hooks";
import { LIMITS } from "../../shared/api/entries.ts";
import type { Build } from "../../shared/build/index.ts";
import type { Place } from "../../shared/places/places.ts";
import type { Book } from "../store/book.ts";
import { mayWrite } from "../store/caller.ts";
import { outboxState } from "../store/runner.ts";
import { handIn } from "./hand-in.ts";
import "./photo.css";

interface Props {
  readonly book: Book;
  readonly build: Build;
  /** Where the pictures belong; without it the card in the frame says, else where this device stands in the job. */
  readonly place?: Place;
  /** Ask the phone for its camera at once. */
  readonly capture?: boolean;
}

interface Row {
  readonly name: string;
  readonly key: number;
  /** Id of its event once it is kept on this device. */
  readonly id?: string;
  readonly trouble?: string;
}

let keys = 0;

export function HandInBox({ book, build, place, capture = false }: Props) {
  const [rows, setRows] = useState<readonly Row[]>([]);
  const change = (key: number, more: Partial<Row>) =>
    setRows((old) => old.map((row) => (row.key === key ? { ...row, ...more } : row)));

  const take = async (files: readonly File[]) => {
    const added = files.map((file) => ({ name: file.name, key: ++keys }));
    setRows((old) => [...old, ...added]);
    for (const [index, file] of files.entries()) {
      const key = added[index]?.key ?? 0;
      try {
        if (file.size === 0) throw new Error("Expected a picture, got an empty file");
        if (file.size > LIMITS.photo)
          throw new Error(`Expected at most ${LIMITS.photo / 1048576} MB, got ${Math.ceil(file.size / 1048576)} MB`);
        // A file is only a handle that may go stale: its bytes are read at once.
        const bytes = new Uint8Array(await file.arrayBuffer());
        change(key, { id: await handIn(book, { bytes, type: file.type || "application/octet-stream", place }) });
      } catch (error) {
        change(key, { trouble: error instanceof Error ? error.message : String(error) });
      }
    }
  };

  if (!mayWrite()) return null;
  const refused = new Map(outboxState.value.refused.map((parcel) => [parcel.id, parcel.refused?.message ?? "refused"]));
  const stateOf = (row: Row) => {
    if (row.trouble !== undefined) return { words: row.trouble, step: 0, bad: true };
    if (row.id === undefined) return { words: "being read", step: 1, bad: false };
    const refusal = refused.get(row.id);
    if (refusal !== undefined) return { words: refusal, step: 0, bad: true };
    return build.photos.has(row.id)
      ? { words: "in the shop", step: 3, bad: false }
      : { words: "kept on this device", step: 2, bad: false };
  };
  const states = rows.map((row) => ({ row, ...stateOf(row) }));
  const arrived = states.filter(({ step }) => step === 3).length;
  return (
    <div class="hand-in">
      <label class="stamp-button hand-in-pick">
        Hand in pictures
        <input
          type="file"
          accept="image/*"
          multiple
          {...(capture ? { capture: "environment" as const } : {})}
          onChange={(event) => {
            const { currentTarget } = event;
            void take([...(currentTarget.files ?? [])]);
            currentTarget.value = "";
          }}
        />
      </label>
      {rows.length === 0 ? null : (
        <>
          <p role="status" aria-live="polite">
            {arrived} of {rows.length} in the shop
          </p>
          <ul class="hand-in-list">
            {states.map(({ row, words, step, bad }) => (
              <li key={row.key} class={bad ? "warning" : ""}>
                <span class="hand-in-name">{row.name}</span>
                {bad ? null : <progress max={3} value={step} aria-label={`${row.name}: ${words}`} />}
                <small>{words}</small>
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
