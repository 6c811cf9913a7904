// The shop's gauges as this build knows them: what each reads to, how far it can be trusted, when it was last zeroed.
import { useState } from "preact/hooks";
import { stampEvent } from "../../extractors/bench/index.ts";
import type { Build } from "../../shared/build/index.ts";
import { type EventData, eventSchema, instrumentUnitSchema } from "../../shared/events/events.ts";
import { ALL_QUANTITIES, isQuantityId, QUANTITIES } from "../../shared/quantities/registry.ts";
import type { BuildPageProps } from "../app.tsx";
import { bareDigits } from "../parts/figures.ts";
import { dayOf } from "../parts/time.ts";
import { Wide } from "../parts/wide.tsx";
import { Writers } from "../parts/writers.tsx";
import type { Book } from "../store/book.ts";
import { stampFor } from "../store/words.ts";

type Kept = EventData["instrument.kept"];
const UNITS = instrumentUnitSchema.options;

export function GaugesPage({ book, build }: BuildPageProps) {
  const gauges = [...build.instruments.values()];
  return (
    <div class="page gauges">
      <h1>Gauges</h1>
      <p class="quiet">
        A verdict near its limit is only as good as the gauge: its trust is counted in, after ISO 14253-1:2017 or the sheet's own
        rule.
      </p>
      {gauges.length === 0 ? <p>No gauge is kept with this build yet.</p> : <GaugeTable build={build} book={book} />}
      <Writers>
        <KeepForm book={book} />
      </Writers>
    </div>
  );
}

const quantityLabel = (id: string) => (isQuantityId(id) ? QUANTITIES[id].label : id);

function GaugeTable({ build, book }: { build: Build; book: Book }) {
  return (
    <Wide label="Gauges">
      <table>
        <thead>
          <tr>
            <th scope="col">Gauge</th>
            <th scope="col">Reads to</th>
            <th scope="col">Trusted to ±</th>
            <th scope="col">Used for</th>
            <th scope="col">Calibrated</th>
            <th scope="col">Last zero check</th>
            <th scope="col">Check it now</th>
          </tr>
        </thead>
        <tbody>
          {[...build.instruments.values()].map((gauge) => (
            <tr key={gauge.id}>
              <th scope="row">
                {gauge.id} <small>{gauge.kind}</small>
              </th>
              <td class="number">
                {bareDigits(gauge.resolution, gauge.unit)} {gauge.unit}
              </td>
              <td class="number">
                {bareDigits(gauge.uncertainty, gauge.unit)} {gauge.unit}
              </td>
              <td>{gauge.quantities.map(quantityLabel).join(", ")}</td>
              <td>
                {gauge.calibrated ?? "not said"} <small>{gauge.certificate}</small>
              </td>
              <td>
                {gauge.zero === undefined
                  ? "never"
                  : `${dayOf(gauge.zero.at)}, off by ${bareDigits(gauge.zero.deviation, gauge.zero.unit)} ${gauge.zero.unit}`}
              </td>
              <td>
                <Writers>
                  <ZeroForm book={book} gauge={gauge.id} unit={gauge.unit} />
                </Writers>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

function ZeroForm({ book, gauge, unit }: { book: Book; gauge: string; unit: Kept["unit"] }) {
  const [off, setOff] = useState("");
  const send = async (submit: Event) => {
    submit.preventDefault();
    await book.log([stampEvent(stampFor(book), "instrument.zeroed", { instrument: gauge, deviation: off, unit })]);
    setOff("");
  };
  return (
    <form class="inline-form" onSubmit={(submit) => void send(submit)}>
      <input
        aria-label={`${gauge}, off by, ${unit}`}
        inputMode="decimal"
        pattern="-?[0-9]*\.?[0-9]+"
        size={7}
        value={off}
        placeholder="0.0000"
        onInput={(input) => setOff(input.currentTarget.value)}
        required
      />
      <button type="submit" class="small-button">
        Zeroed
      </button>
    </form>
  );
}

function KeepForm({ book }: { book: Book }) {
  const [answer, setAnswer] = useState("");
  const send = async (submit: SubmitEvent) => {
    submit.preventDefault();
    const form = submit.currentTarget as HTMLFormElement;
    const fields = new FormData(form);
    const text = (name: string) => String(fields.get(name) ?? "").trim();
    const data: Kept = {
      instrument: text("instrument"),
      kind: text("kind"),
      resolution: text("resolution"),
      uncertainty: text("uncertainty"),
      unit: UNITS.find((unit) => unit === text("unit")) ?? "in",
      quantities: fields.getAll("quantities").map(String),
      ...Object.fromEntries(
        (["range", "repeat", "calibrated", "certificate"] as const).flatMap((name) =>
          text(name) === "" ? [] : [[name, text(name)]],
        ),
      ),
    };
    const event = stampEvent(stampFor(book), "instrument.kept", data);
    const checked = eventSchema.safeParse(event);
    if (!checked.success) {
      const issue = checked.error.issues[0];
      setAnswer(`${issue?.path.slice(1).join(".") ?? "The form"}: ${issue?.message ?? "not understood"}`);
      return;
    }
    await book.log([event]);
    form.reset();
    setAnswer(`${data.instrument} is kept.`);
  };
  return (
    <form class="keep-form" onSubmit={(submit) => void send(submit as SubmitEvent)}>
      <h2>Keep a gauge</h2>
      <label>
        Name
        <input name="instrument" maxLength={60} required placeholder="bore gauge 2" />
      </label>
      <label>
        Kind
        <input name="kind" maxLength={60} required placeholder="dial bore gauge" />
      </label>
      <label>
        Reads to
        <input name="resolution" inputMode="decimal" pattern="[0-9]*\.?[0-9]+" required placeholder="0.0001" />
      </label>
      <label>
        Trusted to ± (twice the standard uncertainty)
        <input name="uncertainty" inputMode="decimal" pattern="[0-9]*\.?[0-9]+" required placeholder="0.0002" />
      </label>
      <label>
        Repeats within ± (leave out if not known)
        <input name="repeat" inputMode="decimal" pattern="[0-9]*\.?[0-9]+" />
      </label>
      <label>
        Reads up to (wrenches)
        <input name="range" inputMode="decimal" pattern="[0-9]*\.?[0-9]+" />
      </label>
      <label>
        Calibrated on
        <input name="calibrated" type="date" />
      </label>
      <label>
        Certificate
        <input name="certificate" maxLength={80} />
      </label>
      <label>
        Unit
        <select name="unit">
          {UNITS.map((unit) => (
            <option key={unit} value={unit}>
              {unit.replace("_", " ")}
            </option>
          ))}
        </select>
      </label>
      <label class="keep-uses">
        Used for
        <select name="quantities" multiple size={6} required>
          {ALL_QUANTITIES.map(({ id, label }) => (
            <option key={id} value={id}>
              {label}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" class="stamp-button">
        Keep it
      </button>
      <p role="status">{answer}</p>
    </form>
  );
}
