// The build's spec sheet: every part of it with where it comes from, changed here by touch or as text; each change is a new version and
// an entry of the log with its reason, so that a build keeps what it was built to.
import { useState } from "preact/hooks";
import { stampEvent } from "../../extractors/bench/index.ts";
import { PARTS } from "../../shared/spec/edit/parts.ts";
import { readSpecFile, type SpecError, writeSpecFile } from "../../shared/spec/read.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import type { BuildPageProps } from "../app.tsx";
import { Writers } from "../parts/writers.tsx";
import type { Book } from "../store/book.ts";
import { stampFor } from "../store/words.ts";
import { SheetPart } from "./sheet-part.tsx";

/** Log a changed sheet as the next version. */
async function revise(book: Book, spec: Spec, why: string): Promise<void> {
  const next = { ...spec, version: (book.build?.spec.version ?? spec.version) + 1 };
  await book.log([stampEvent(stampFor(book), "spec.revised", { spec: next, ...(why === "" ? {} : { why }) })]);
}

export default function SheetPage({ book, build }: BuildPageProps) {
  const { spec } = build;
  const [answer, setAnswer] = useState("");
  const keep = async (changed: Spec, what: string, why: string) => {
    await revise(book, changed, `${what}: ${why}`);
    setAnswer(`${what}; the sheet is at version ${book.build?.spec.version}.`);
  };
  return (
    <div class="page sheet">
      <h1>Spec sheet</h1>
      <p>
        <b>{spec.name}</b>, version {spec.version}. {spec.note}
      </p>
      <p class="quiet">The maker's manual comes first. A change counts from now on; what was judged before stays in the log.</p>
      <p role="status">{answer}</p>
      {PARTS.map((part) => (
        <SheetPart key={part.id} part={part} spec={spec} keep={keep} />
      ))}
      <Writers>
        <SheetText book={book} spec={spec} />
      </Writers>
    </div>
  );
}

function SheetText({ book, spec }: { book: Book; spec: Spec }) {
  const [text, setText] = useState(() => writeSpecFile(spec));
  const [why, setWhy] = useState("");
  const [errors, setErrors] = useState<readonly SpecError[]>([]);
  const [answer, setAnswer] = useState("");
  const save = async (submit: Event) => {
    submit.preventDefault();
    const read = readSpecFile(text, "sheet");
    setErrors(read.ok ? [] : read.errors);
    setAnswer("");
    if (!read.ok) return;
    await revise(book, read.spec, why.trim());
    setAnswer(`The sheet is at version ${book.build?.spec.version}.`);
    setText(writeSpecFile(book.build?.spec ?? read.spec));
  };
  return (
    <details class="sheet-text">
      <summary>The whole sheet as text</summary>
      <form onSubmit={(submit) => void save(submit)}>
        <label>
          YAML or JSON
          <textarea rows={22} spellcheck={false} value={text} onInput={(input) => setText(input.currentTarget.value)} />
        </label>
        <label>
          Why it is changed
          <input maxLength={500} value={why} onInput={(input) => setWhy(input.currentTarget.value)} />
        </label>
        <button type="submit" class="stamp-button">
          Keep as the next version
        </button>
        <div role="status">
          {answer}
          <ul class="sheet-errors">
            {errors.map((error) => (
              <li key={`${error.line}${error.field}`}>{error.say}</li>
            ))}
          </ul>
        </div>
      </form>
    </details>
  );
}
