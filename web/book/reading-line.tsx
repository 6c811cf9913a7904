// One reading in the day book: where, what, the figure as it was said, the verdict, and the arithmetic behind it.
import type { LoggedReading } from "../../shared/build/index.ts";
import { placeKey, placeLabel } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { Finding } from "../../shared/rules/index.ts";
import { figureLine, figureOf } from "../parts/figures.ts";
import { Mark } from "../parts/mark.tsx";
import { MARK_WORDS, markOf } from "../parts/verdict.ts";
import { linkTo } from "../route.ts";

/** Reasons a reading waits for a yes, in plain words; other codes are shown as they are. */
const CONDITION_WORDS = { as_found: "as found", machined: "machined", trial: "trial", final: "final" } as const;

interface Props {
  readonly build: string;
  readonly logged: LoggedReading;
  readonly findings: readonly Finding[];
}

export function ReadingLine({ build, logged, findings }: Props) {
  const { reading } = logged;
  const figure = figureOf(reading);
  const mark = markOf(logged, findings);
  const quantity = QUANTITIES[reading.quantity];
  const where = placeLabel(reading.place);
  return (
    <div class={`reading reading-${mark}`}>
      <p class="reading-what">
        <strong>{quantity.label}</strong>{" "}
        {where === "" ? null : <a href={linkTo("place", build, placeKey(numbered(reading.place)))}>{where}</a>}{" "}
        <small>{CONDITION_WORDS[logged.condition]}</small>
      </p>
      <p class="figure">
        <span class="digits">{figure.digits}</span> <span class="unit">{figure.unit}</span>
        {figure.way === "" ? null : <span class="way"> {figure.way}</span>}
        {reading.over === undefined ? null : <span class="way"> at {reading.over.digits}</span>}
      </p>
      <Mark mark={mark} />
      <Arithmetic logged={logged} findings={findings} />
    </div>
  );
}

/** Only the slots that a page of places is kept by. */
function numbered({ cylinder, main, rod }: LoggedReading["reading"]["place"]) {
  if (cylinder !== undefined) return { cylinder };
  if (main !== undefined) return { main };
  return rod === undefined ? {} : { rod };
}

function Arithmetic({ logged, findings }: { logged: LoggedReading; findings: readonly Finding[] }) {
  const [first, ...rest] = logged.status === "counted" ? findings : [];
  const before = logged.revisions.at(-1);
  return (
    <div class="why">
      {logged.stale === undefined ? null : <p>No longer holds: {logged.stale.what}.</p>}
      {before === undefined ? null : (
        <p>
          Was <s>{figureLine(before.reading)}</s>
          {placeKey(before.reading.place) === placeKey(logged.reading.place) ? null : ` at ${placeLabel(before.reading.place)}`}.
        </p>
      )}
      {first === undefined ? null : <Because finding={first} />}
      {rest.length === 0 ? null : (
        <details>
          <summary>
            {rest.length} more that {rest.length === 1 ? "rests" : "rest"} on it
          </summary>
          {rest.map((finding) => (
            <Because key={`${finding.rule}${finding.why}`} finding={finding} named />
          ))}
        </details>
      )}
    </div>
  );
}

/** The sentence of a finding with where its limit comes from, and what to do. */
export function Because({ finding, named = false }: { finding: Finding; named?: boolean }) {
  return (
    <p>
      {named ? <b>{MARK_WORDS[finding.verdict]}: </b> : null}
      {finding.why}
      {finding.source === undefined ? null : <span class="source"> Limit: {finding.source}.</span>}
      {finding.settled === undefined ? null : <span class="settled"> Settled: {finding.settled}.</span>}
      {finding.accepted === undefined ? null : <span class="settled"> Left as it is by {finding.accepted}.</span>}
      {finding.remedy === undefined || finding.settled !== undefined ? null : <span class="remedy"> {finding.remedy}</span>}
    </p>
  );
}
