// The build's record, to be printed and signed: every figure that stands with its limit and verdict, what is open, the pictures,
// the gauges, and the head hash that anchors the log behind it.

import type { Build, LoggedReading } from "../../shared/build/index.ts";
import { placeKey, placeLabel } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import { type Finding, isOpen } from "../../shared/rules/index.ts";
import { planOf, stepTitle } from "../../shared/steps/plan.ts";
import { STEP_IDS } from "../../shared/steps/steps.ts";
import type { BuildPageProps } from "../app.tsx";
import { Because } from "../book/reading-line.tsx";
import { bareDigits, figureLine } from "../parts/figures.ts";
import { Mark } from "../parts/mark.tsx";
import { dayOf } from "../parts/time.ts";
import { findingsByEvent, markOf, worstFirst } from "../parts/verdict.ts";
import { Wide } from "../parts/wide.tsx";
import { Writers } from "../parts/writers.tsx";
import { photoUrl } from "../store/shop.ts";
import { HandOver } from "./hand-over.tsx";

export function RecordPage({ book, build }: BuildPageProps) {
  const findings = book.findings();
  const open = findings.filter(isOpen).sort(worstFirst);
  const { head } = book;
  return (
    <article class="page record">
      <header class="record-head">
        <h1>Record of the rebuild</h1>
        <p>
          <b>{build.name}</b>
          {build.customer === undefined ? "" : `, for ${build.customer}`}
        </p>
        <p>
          {build.spec.name}, spec sheet version {build.spec.version}. Opened {dayOf(build.opened)}.
        </p>
        <button type="button" class="stamp-button no-print" onClick={() => print()}>
          Print it
        </button>
      </header>
      <FiguresByStep build={build} findings={findings} />
      <section>
        <h2>Open points ({open.length})</h2>
        {open.length === 0 ? <p>None.</p> : null}
        <ol class="record-open">
          {open.map((finding) => (
            <li key={`${finding.rule}${placeKey(finding.place)}${finding.why}`}>
              <Mark mark={finding.verdict} />
              <Because finding={finding} />
            </li>
          ))}
        </ol>
      </section>
      <Pictures build={build} />
      <GaugeList build={build} />
      <Writers>
        <HandOver book={book} build={build} open={open.length} />
      </Writers>
      <footer class="record-foot">
        <p>
          The log behind this record has {head?.seq ?? 0} entries. Hash of its last one (SHA-256, each entry chained to the one
          before): <code>{head?.hash ?? "not sent yet"}</code>
        </p>
        <p>
          Limits marked common practice are no maker's figures. The maker's manual, local rules and licensed practice come first.
        </p>
        <div class="signatures">
          <p>Machinist, date</p>
          <p>Received by, date</p>
        </div>
      </footer>
    </article>
  );
}

/** Counted readings, in the order of the job's steps; the rest at the end. */
function byStep(build: Build): { title: string; readings: LoggedReading[] }[] {
  const counted = [...build.readings.values()].filter(({ status }) => status === "counted");
  const stepOf = (logged: LoggedReading) => logged.step ?? QUANTITIES[logged.reading.quantity].steps[0];
  const planned = planOf(build.spec).map(({ id }) => id);
  // What was read at a step that the sheet has dropped since stands behind the others.
  const steps = [...planned, ...STEP_IDS.filter((id) => !planned.includes(id))];
  return steps
    .map((id) => ({ title: stepTitle(id, build.spec), readings: counted.filter((logged) => stepOf(logged) === id) }))
    .filter(({ readings }) => readings.length > 0);
}

/** The limit that decided; where it is on a figure worked out from this one, with that figure's name. */
function limitText(logged: LoggedReading, finding: Finding | undefined): string {
  if (finding?.limit == null) return "none";
  return finding.value === logged.reading.value ? finding.limit : `${finding.rule.replaceAll("_", " ")}: ${finding.limit}`;
}

function FiguresByStep({ build, findings }: { build: Build; findings: readonly Finding[] }) {
  const byEvent = findingsByEvent(findings);
  return (
    <>
      {byStep(build).map(({ title, readings }) => (
        <section key={title} class="record-step">
          <h2>{title}</h2>
          <Wide label={title}>
            <table>
              <thead>
                <tr>
                  <th scope="col">What</th>
                  <th scope="col">Where</th>
                  <th scope="col">Figure</th>
                  <th scope="col">Limit</th>
                  <th scope="col">Verdict</th>
                </tr>
              </thead>
              <tbody>
                {readings.map((logged) => {
                  const list = byEvent.get(logged.id) ?? [];
                  return (
                    <tr key={logged.id}>
                      <td>{QUANTITIES[logged.reading.quantity].label}</td>
                      <td>{placeLabel(logged.reading.place)}</td>
                      <td class="number">{figureLine(logged.reading)}</td>
                      <td>{limitText(logged, list[0])}</td>
                      <td>
                        <Mark mark={markOf(logged, list)} />
                      </td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </Wide>
        </section>
      ))}
    </>
  );
}

function Pictures({ build }: { build: Build }) {
  const photos = [...build.photos.values()];
  return (
    <section>
      <h2>Pictures ({photos.length})</h2>
      <ul class="pictures">
        {photos.map(({ id, photo, statement, place, step }) => (
          <li key={id}>
            <img
              src={photoUrl(photo.sha256, "thumb")}
              alt={statement ?? `Picture, ${placeLabel(place)}`}
              loading="lazy"
              width="180"
              height="135"
            />
            <p>
              {placeLabel(place) || "the engine"}
              {step === undefined ? "" : `, ${stepTitle(step, build.spec)}`}. {statement}
              <small>
                {" "}
                taken {dayOf(photo.taken.at)}; {photo.sha256.slice(0, 12)}
              </small>
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function GaugeList({ build }: { build: Build }) {
  const gauges = [...build.instruments.values()];
  if (gauges.length === 0) return null;
  return (
    <section>
      <h2>Gauges used</h2>
      <ul>
        {gauges.map((gauge) => (
          <li key={gauge.id}>
            {gauge.id}, {gauge.kind}: reads to {bareDigits(gauge.resolution, gauge.unit)} {gauge.unit}, trusted to ±
            {bareDigits(gauge.uncertainty, gauge.unit)} {gauge.unit}
          </li>
        ))}
      </ul>
    </section>
  );
}
