// One cylinder, main or rod: every reading ever taken of it, what stands and what gave way, its findings and its pictures.
import { useMemo } from "preact/hooks";
import type { Build, LoggedReading } from "../../shared/build/index.ts";
import { type Place, placeKey, placeLabel } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import { type Finding, isOpen, judgeReading } from "../../shared/rules/index.ts";
import { readPlaceKey } from "../../shared/rules/key.ts";
import type { BuildPageProps } from "../app.tsx";
import { FindingList } from "../book/standing.tsx";
import { figureOf } from "../parts/figures.ts";
import { Mark } from "../parts/mark.tsx";
import { Tag } from "../parts/tag.tsx";
import { clockOf, dayOf } from "../parts/time.ts";
import { findingsByEvent, markOf, worstFirst } from "../parts/verdict.ts";
import { Wide } from "../parts/wide.tsx";
import { HandInBox } from "../photo/hand-in-box.tsx";
import { Picture, photoTitle } from "../photo/picture.tsx";
import { linkTo, route } from "../route.ts";

/** Whether `place` belongs to the page of `page`: a rod's number is its cylinder's. */
function belongs(page: Place, place: Place): boolean {
  if (page.main !== undefined) return place.main === page.main;
  const number = page.cylinder ?? page.rod;
  return number !== undefined && (place.cylinder ?? place.rod) === number;
}

export function PlacePage({ book, build }: BuildPageProps) {
  const page = readPlaceKey(route.value.rest ?? "cylinder=1");
  const findings = book.findings();
  const byEvent = useMemo(() => findingsByEvent(findings), [findings]);
  const readings = [...build.readings.values()].filter(({ reading }) => belongs(page, reading.place));
  const photos = [...build.photos.values()].filter(({ place }) => belongs(page, place)).reverse();
  const open = findings.filter((finding) => belongs(page, finding.place) && isOpen(finding)).sort(worstFirst);
  return (
    <div class="page place-page">
      <h1>{placeLabel(page)}</h1>
      <PlaceTags build={build} page={page} />
      {open.length === 0 ? <p class="quiet">Nothing open here.</p> : <FindingList findings={open} />}
      <h2>Readings</h2>
      {readings.length === 0 ? (
        <p class="quiet">None taken yet.</p>
      ) : (
        <History build={build} readings={readings} byEvent={byEvent} />
      )}
      <h2>Pictures</h2>
      {photos.length === 0 ? <p class="quiet">None taken yet.</p> : null}
      <HandInBox book={book} build={build} place={page} />
      <ul class="pictures">
        {photos.map((logged) => (
          <li key={logged.id}>
            <Picture build={build} photo={logged} among={photos} />
            <p>
              {photoTitle(build, logged)} <small>{dayOf(logged.at)}</small>
            </p>
          </li>
        ))}
      </ul>
    </div>
  );
}

function PlaceTags({ build, page }: { build: Build; page: Place }) {
  const { cylinders, mains } = build.spec.engine;
  const places: Place[] = [
    ...Array.from({ length: cylinders }, (_, index) => ({ cylinder: index + 1 })),
    ...Array.from({ length: mains }, (_, index) => ({ main: index + 1 })),
  ];
  const here = placeKey(page.rod === undefined ? page : { cylinder: page.rod });
  return (
    <div class="tag-row">
      {places.map((place) => {
        const key = placeKey(place);
        const go = () => {
          location.hash = linkTo("place", build.id, key);
        };
        return (
          <Tag key={key} on={key === here} onPick={go}>
            {placeLabel(place)}
          </Tag>
        );
      })}
    </div>
  );
}

interface HistoryProps {
  readonly build: Build;
  readonly readings: readonly LoggedReading[];
  readonly byEvent: ReadonlyMap<string, readonly Finding[]>;
}

function History({ build, readings, byEvent }: HistoryProps) {
  const groups = new Map<string, LoggedReading[]>();
  for (const logged of readings) {
    const label = QUANTITIES[logged.reading.quantity].label;
    groups.set(label, [...(groups.get(label) ?? []), logged]);
  }
  return (
    <>
      {[...groups].map(([label, group]) => (
        <section key={label} class="history">
          <h3>{label}</h3>
          <Wide label={`${label}, all readings`}>
            <table>
              <thead>
                <tr>
                  <th scope="col">Where</th>
                  <th scope="col">Figure</th>
                  <th scope="col">Verdict</th>
                  <th scope="col">As</th>
                  <th scope="col">When, by whom</th>
                </tr>
              </thead>
              <tbody>
                {group.map((logged) => (
                  <HistoryRow key={logged.id} build={build} logged={logged} findings={byEvent.get(logged.id) ?? []} />
                ))}
              </tbody>
            </table>
          </Wide>
        </section>
      ))}
    </>
  );
}

function HistoryRow({ build, logged, findings }: { build: Build; logged: LoggedReading; findings: readonly Finding[] }) {
  const figure = figureOf(logged.reading);
  const mark = markOf(logged, findings);
  // One that gave way is still judged as it was read, so that the wear of years can be seen.
  const past = logged.status === "superseded" ? judgeReading(build, logged)[0] : undefined;
  return (
    <tr class={`row-${mark}`}>
      <td>{placeLabel(logged.reading.place)}</td>
      <td class="number">
        <span class="digits">{figure.digits}</span> {figure.unit} {figure.way}
        {logged.revisions.length === 0 ? null : (
          <small> was {logged.revisions.map(({ reading }) => figureOf(reading).digits).join(", ")}</small>
        )}
      </td>
      <td>
        <Mark mark={mark} />
        {past === undefined ? null : <small> was {past.verdict === "pass" ? "good" : "out"}</small>}
      </td>
      <td>{logged.condition.replace("_", " ")}</td>
      <td>
        {dayOf(logged.at)} {clockOf(logged.at)}, {logged.by}
        {logged.instrument === undefined ? "" : `, ${logged.instrument}`}
      </td>
    </tr>
  );
}
