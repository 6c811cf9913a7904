// What if: suppose another bore, shim, or size, and see every figure and verdict that would move beside today's. Nothing is logged.

import { useState } from "preact/hooks";
import type { Build } from "../../shared/build/index.ts";
import { type Place, placeKey, placeLabel } from "../../shared/places/places.ts";
import { ALL_QUANTITIES, QUANTITIES } from "../../shared/quantities/registry.ts";
import type { QuantityId } from "../../shared/quantities/types.ts";
import { type Finding, type Supposition, whatIf } from "../../shared/rules/index.ts";
import { readPlaceKey } from "../../shared/rules/key.ts";
import { benchUnit, isMetric, lengthIn, lengthUnit } from "../../shared/spec/sizes.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { bearingAt } from "../../shared/spec/spec.ts";
import { convert } from "../../shared/units/convert.ts";
import { UNITS } from "../../shared/units/units.ts";
import type { BuildPageProps } from "../app.tsx";
import { Because } from "../book/reading-line.tsx";
import { bareDigits } from "../parts/figures.ts";
import { Mark } from "../parts/mark.tsx";
import { MARK_WORDS } from "../parts/verdict.ts";
import { Wide } from "../parts/wide.tsx";

export function WhatIfPage({ build }: BuildPageProps) {
  const [changes, setChanges] = useState<readonly Supposition[]>([]);
  const [trouble, setTrouble] = useState<string>();
  const suppose = (change: Supposition) => {
    try {
      whatIf(build, [...changes, change]);
      setChanges([...changes, change]);
      setTrouble(undefined);
    } catch (error) {
      setTrouble(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <div class="page what-if">
      <h1>What if</h1>
      <p class="quiet">Suppose a change and see what would move. Nothing here is logged.</p>
      <div class="forms">
        <BoreForm build={build} suppose={suppose} />
        <ShimForm build={build} suppose={suppose} />
        <SizeForm build={build} suppose={suppose} />
      </div>
      {trouble === undefined ? null : <p class="warning">{trouble}</p>}
      <Supposed changes={changes} spec={build.spec} clear={() => setChanges([])} />
      {changes.length === 0 ? null : <Outcomes build={build} changes={changes} />}
    </div>
  );
}

interface FormProps {
  readonly build: Build;
  suppose(change: Supposition): void;
}

function BoreForm({ build, suppose }: FormProps) {
  const [over, setOver] = useState(build.spec.oversizes[0] ?? "0.010");
  return (
    <form
      onSubmit={(submit) => {
        submit.preventDefault();
        suppose({ kind: "bore", oversize: lengthIn(over, build.spec) });
      }}
    >
      <h2>Bore all cylinders</h2>
      <label>
        To oversize
        <select value={over} onChange={(change) => setOver(change.currentTarget.value)}>
          {build.spec.oversizes.map((size) => (
            <option key={size} value={size}>
              {bareDigits(size, lengthUnit(build.spec))} {/[a-z]/.test(size) ? "" : lengthUnit(build.spec)} over
            </option>
          ))}
        </select>
      </label>
      <button type="submit" class="stamp-button">
        Suppose it
      </button>
    </form>
  );
}

function ShimForm({ build, suppose }: FormProps) {
  const places: Place[] = [
    ...Array.from({ length: build.spec.engine.mains }, (_, index): Place => ({ main: index + 1 })),
    ...Array.from({ length: build.spec.engine.cylinders }, (_, index): Place => ({ rod: index + 1 })),
  ].filter((one) => bearingAt(build.spec.engine, one) === "poured");
  const [place, setPlace] = useState(placeKey(places[0] ?? {}));
  const metric = isMetric(build.spec);
  const [each, setEach] = useState(metric ? "5" : "2");
  if (places.length === 0) return null;
  return (
    <form
      onSubmit={(submit) => {
        submit.preventDefault();
        suppose({
          kind: "shims",
          place: readPlaceKey(place),
          removeEachSide: metric ? convert(Number(each) / 100, "mm", "in") : Number(each) / 1000,
        });
      }}
    >
      <h2>Take out shims</h2>
      <label>
        At
        <select value={place} onChange={(change) => setPlace(change.currentTarget.value)}>
          {places.map((one) => (
            <option key={placeKey(one)} value={placeKey(one)}>
              {placeLabel(one)}
            </option>
          ))}
        </select>
      </label>
      <label>
        {metric ? "Hundredths of a mm" : "Thou"} from each side
        <input type="number" step="0.5" value={each} onInput={(input) => setEach(input.currentTarget.value)} required />
      </label>
      <button type="submit" class="stamp-button">
        Suppose it
      </button>
    </form>
  );
}

function SizeForm({ build, suppose }: FormProps) {
  const [quantity, setQuantity] = useState<QuantityId>("gasket_thickness");
  const [value, setValue] = useState("");
  const known = [...(build.byQuantity.get(quantity) ?? [])];
  const places = [...new Set(known.map(({ reading }) => placeKey(reading.place)))];
  const needs = QUANTITIES[quantity].needs.length > 0;
  const unit = benchUnit(QUANTITIES[quantity].unit, build.spec);
  const [place, setPlace] = useState("");
  const chosen = places.includes(place) ? place : (places[0] ?? "");
  return (
    <form
      onSubmit={(submit) => {
        submit.preventDefault();
        suppose({ kind: "reading", quantity, place: readPlaceKey(chosen), value: Number(value), unit });
      }}
    >
      <h2>Another figure</h2>
      <label>
        Of
        <select value={quantity} onChange={(change) => setQuantity(change.currentTarget.value as QuantityId)}>
          {ALL_QUANTITIES.map(({ id, label }) => (
            <option key={id} value={id}>
              {label}
            </option>
          ))}
        </select>
      </label>
      {places.length === 0 ? null : (
        <label>
          At
          <select value={chosen} onChange={(change) => setPlace(change.currentTarget.value)}>
            {places.map((key) => (
              <option key={key} value={key}>
                {placeLabel(readPlaceKey(key)) || "the engine"}
              </option>
            ))}
          </select>
        </label>
      )}
      <label>
        Would be, {UNITS[unit].label}
        <input
          inputMode="decimal"
          pattern="-?[0-9]*\.?[0-9]+"
          value={value}
          onInput={(input) => setValue(input.currentTarget.value)}
          required
        />
      </label>
      {needs && places.length === 0 ? <p class="quiet">No reading of it yet: nothing to compare with.</p> : null}
      <button type="submit" class="stamp-button" disabled={needs && places.length === 0}>
        Suppose it
      </button>
    </form>
  );
}

function sayChange(change: Supposition, spec: Spec): string {
  const length = (inches: number, digits: number) =>
    isMetric(spec) ? `${convert(inches, "in", "mm").toFixed(2)} mm` : inches.toFixed(digits);
  if (change.kind === "bore") return `all cylinders bored ${length(change.oversize, 3)} over`;
  if (change.kind === "shims")
    return `${isMetric(spec) ? length(change.removeEachSide, 4) : `${(change.removeEachSide * 1000).toFixed(1).replace(/\.0$/, "")} thou`} of shim out of each side at ${placeLabel(change.place)}`;
  const where = placeLabel(change.place);
  return `${QUANTITIES[change.quantity].label}${where === "" ? "" : `, ${where}`}: ${change.value} ${UNITS[change.unit ?? QUANTITIES[change.quantity].unit].label}`;
}

interface SupposedProps {
  readonly changes: readonly Supposition[];
  readonly spec: Spec;
  clear(): void;
}

function Supposed({ changes, spec, clear }: SupposedProps) {
  if (changes.length === 0) return null;
  return (
    <section class="supposed">
      <h2>Supposed</h2>
      <ul>
        {changes.map((change) => (
          <li key={sayChange(change, spec)}>{sayChange(change, spec)}</li>
        ))}
      </ul>
      <button type="button" class="small-button" onClick={clear}>
        Forget all
      </button>
    </section>
  );
}

function Outcomes({ build, changes }: { build: Build; changes: readonly Supposition[] }) {
  const { outcomes } = whatIf(build, changes);
  if (outcomes.length === 0) return <p role="status">No figure or verdict would move.</p>;
  return (
    <Wide label="What would move">
      <table>
        <caption>
          {outcomes.length} {outcomes.length === 1 ? "verdict" : "verdicts"} would move
        </caption>
        <thead>
          <tr>
            <th scope="col">Where</th>
            <th scope="col">Today</th>
            <th scope="col">Then</th>
          </tr>
        </thead>
        <tbody>
          {outcomes.map(({ rule, place, before, after }) => (
            <tr key={`${rule}${placeKey(place)}`}>
              <th scope="row">
                {placeLabel(place) || "the engine"}
                <small> {rule.replaceAll("_", " ")}</small>
              </th>
              <td>
                <Side finding={before} />
              </td>
              <td>
                <Side finding={after} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

function Side({ finding }: { finding: Finding | undefined }) {
  if (finding === undefined) return <span class="quiet">nothing to say</span>;
  return (
    <>
      <Mark mark={finding.verdict} word={MARK_WORDS[finding.verdict]} />
      <Because finding={finding} />
    </>
  );
}
