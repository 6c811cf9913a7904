// The build's spec sheet: its limits with where they come from, changed here or as text; each change is a new version and an entry
// of the log, so that a build keeps what it was built to.
import { useState } from "preact/hooks";
import { stampEvent } from "../../extractors/bench/index.ts";
import { placeLabel } from "../../shared/places/places.ts";
import { readSpecFile, type SpecError, writeSpecFile } from "../../shared/spec/read.ts";
import { nonsenseIn } from "../../shared/spec/sense.ts";
import { type Limit, type Spec, specSchema } from "../../shared/spec/spec.ts";
import type { BuildPageProps } from "../app.tsx";
import { bareDigits } from "../parts/figures.ts";
import { Wide } from "../parts/wide.tsx";
import { Writers } from "../parts/writers.tsx";
import type { Book } from "../store/book.ts";
import { stampFor } from "../store/words.ts";

const SOURCES: Readonly<Record<Limit["source"]["kind"], string>> = {
  maker: "maker's manual",
  standard: "standard",
  common_practice: "common practice",
  shop: "shop's own",
};

/** Log a changed sheet as the next version. */
async function revise(book: Book, spec: Spec, why: string): Promise<void> {
  const next = { ...spec, version: (book.build?.spec.version ?? spec.version) + 1 };
  await book.log([stampEvent(stampFor(book), "spec.revised", { spec: next, ...(why === "" ? {} : { why }) })]);
}

export default function SheetPage({ book, build }: BuildPageProps) {
  const { spec } = build;
  return (
    <div class="page sheet">
      <h1>Spec sheet</h1>
      <p>
        <b>{spec.name}</b>, version {spec.version}. {spec.note}
      </p>
      <p class="quiet">The maker's manual comes first. A change counts from now on; what was judged before stays in the log.</p>
      <LimitTable book={book} spec={spec} />
      <Writers>
        <SheetText book={book} spec={spec} />
      </Writers>
    </div>
  );
}

function LimitTable({ book, spec }: { book: Book; spec: Spec }) {
  const [editing, setEditing] = useState<Limit>();
  const [answer, setAnswer] = useState("");
  return (
    <>
      <h2>Limits</h2>
      <p role="status">{answer}</p>
      <Wide label="Limits">
        <table>
          <thead>
            <tr>
              <th scope="col">Limit</th>
              <th scope="col">Good from</th>
              <th scope="col">to</th>
              <th scope="col">Out below</th>
              <th scope="col">above</th>
              <th scope="col">From</th>
              <th scope="col">
                <span class="unseen">Change</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {spec.limits.map((limit) =>
              editing === limit ? (
                <LimitForm
                  key={spec.limits.indexOf(limit)}
                  spec={spec}
                  limit={limit}
                  done={async (changed) => {
                    setEditing(undefined);
                    if (changed === undefined) return;
                    await revise(book, changed, `limit ${limit.id.replaceAll("_", " ")}`);
                    setAnswer(
                      `${limit.id.replaceAll("_", " ")} is changed; the sheet is at version ${book.build?.spec.version}.`,
                    );
                  }}
                />
              ) : (
                <LimitRow key={spec.limits.indexOf(limit)} limit={limit} edit={() => setEditing(limit)} />
              ),
            )}
          </tbody>
        </table>
      </Wide>
    </>
  );
}

const unitOf = (limit: Limit) =>
  `${limit.unit.replaceAll("_", " ")}${limit.perInchOf === undefined ? "" : ` an inch of ${limit.perInchOf}`}`;
const show = (text: string | undefined) => (text === undefined ? "" : bareDigits(text));

function LimitName({ limit }: { limit: Limit }) {
  const where = limit.where === undefined ? "" : `, ${placeLabel(limit.where)}`;
  const when = limit.condition === undefined ? "" : `, ${limit.condition.replace("_", " ")}`;
  return (
    <th scope="row">
      {limit.id.replaceAll("_", " ")}
      <small>
        {" "}
        {unitOf(limit)}
        {where}
        {when}
      </small>
    </th>
  );
}

function LimitRow({ limit, edit }: { limit: Limit; edit: () => void }) {
  return (
    <tr>
      <LimitName limit={limit} />
      <td class="number">{show(limit.accept.low)}</td>
      <td class="number">{show(limit.accept.high)}</td>
      <td class="number">{show(limit.reject?.low)}</td>
      <td class="number">{show(limit.reject?.high)}</td>
      <td>
        {SOURCES[limit.source.kind]}: {limit.source.cite}
      </td>
      <td>
        <Writers>
          <button type="button" class="small-button" onClick={edit} aria-label={`Change ${limit.id.replaceAll("_", " ")}`}>
            Change
          </button>
        </Writers>
      </td>
    </tr>
  );
}

type Ends = { low?: string; high?: string };
const ends = (low: string, high: string): Ends => ({ ...(low === "" ? {} : { low }), ...(high === "" ? {} : { high }) });

interface LimitFormProps {
  readonly spec: Spec;
  readonly limit: Limit;
  done(changed: Spec | undefined): Promise<void>;
}

function LimitForm({ spec, limit, done }: LimitFormProps) {
  const [draft, setDraft] = useState({
    low: limit.accept.low ?? "",
    high: limit.accept.high ?? "",
    out_low: limit.reject?.low ?? "",
    out_high: limit.reject?.high ?? "",
    kind: limit.source.kind as string,
    cite: limit.source.cite,
  });
  const [trouble, setTrouble] = useState("");
  const save = async () => {
    const reject = ends(draft.out_low.trim(), draft.out_high.trim());
    const { reject: _before, ...rest } = limit;
    const next = {
      ...rest,
      accept: ends(draft.low.trim(), draft.high.trim()),
      ...(Object.keys(reject).length === 0 ? {} : { reject }),
      source: { kind: draft.kind, cite: draft.cite.trim() },
    };
    const checked = specSchema.safeParse({ ...spec, limits: spec.limits.map((one) => (one === limit ? next : one)) });
    const [fault] = checked.success
      ? nonsenseIn(checked.data)
      : checked.error.issues.map(({ path, message }) => ({ path, say: message }));
    if (fault !== undefined) setTrouble(`${fault.path.slice(2).join(" ")}: ${fault.say}`);
    else if (checked.success) await done(checked.data);
  };
  const field = (name: keyof typeof draft, label: string) => (
    <td>
      <input
        aria-label={`${limit.id.replaceAll("_", " ")}, ${label}`}
        inputMode="decimal"
        size={7}
        value={draft[name]}
        onInput={(input) => setDraft({ ...draft, [name]: input.currentTarget.value })}
      />
    </td>
  );
  return (
    <tr>
      <LimitName limit={limit} />
      {field("low", "good from")}
      {field("high", "good to")}
      {field("out_low", "out below")}
      {field("out_high", "out above")}
      <td>
        <select
          aria-label="Where it comes from"
          value={draft.kind}
          onChange={(change) => setDraft({ ...draft, kind: change.currentTarget.value })}
        >
          {Object.entries(SOURCES).map(([kind, words]) => (
            <option key={kind} value={kind}>
              {words}
            </option>
          ))}
        </select>
        <input
          aria-label="Page or name"
          value={draft.cite}
          onInput={(input) => setDraft({ ...draft, cite: input.currentTarget.value })}
        />
        {trouble === "" ? null : <p class="warning">{trouble}</p>}
      </td>
      <td>
        <button type="button" class="small-button" onClick={() => void save()}>
          Keep
        </button>
        <button type="button" class="small-button" onClick={() => void done(undefined)}>
          Leave
        </button>
      </td>
    </tr>
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
