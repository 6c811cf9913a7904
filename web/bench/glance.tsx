// What one look at two metres must show: the last figure with its verdict, or what a figure is waited for of.
import type { Reading } from "../../shared/events/reading.ts";
import { type Place, placeKey, placeLabel } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { QuantityId } from "../../shared/quantities/types.ts";
import { figureOf } from "../parts/figures.ts";
import { Mark } from "../parts/mark.tsx";
import type { ReadBack } from "./read-back.ts";

interface GlanceProps {
  readonly said: ReadBack | undefined;
  /** Where the header says we are: the same place is not said twice. */
  readonly here: Place;
  readonly heard: string;
  readonly tentative: boolean;
  /** A sentence to start from, shown while there is nothing else. */
  readonly example: string;
}

export function Glance({ said, here, heard, tentative, example }: GlanceProps) {
  const reading = said?.reading?.reading;
  return (
    <section class="glance" aria-label="Last reading">
      {said !== undefined && reading !== undefined ? (
        <Shown said={said} reading={reading} here={here} />
      ) : said?.asked !== undefined ? (
        <Asked quantity={said.asked} />
      ) : heard === "" ? (
        // Beside what was just said and answered, a hint would be read as the answer.
        <p class="glance-hint">
          The figure you say stands here. Say it whole: what, where, how much. <q class="heard">{example}</q>
        </p>
      ) : null}
      {heard === "" ? null : (
        <p class="glance-heard">
          <q class="heard">{heard}</q>
          {tentative ? <small> not logged yet</small> : null}
        </p>
      )}
      <p
        class={`glance-said${reading !== undefined && said?.mood === "accepted" ? " unseen" : ""}`}
        role="status"
        aria-live="polite"
      >
        {said?.text ?? ""}
      </p>
    </section>
  );
}

/** What a figure is waited for of. */
function Asked({ quantity }: { quantity: QuantityId }) {
  return (
    <>
      <p class="glance-what">{QUANTITIES[quantity].label}</p>
      <p class="glance-figure">
        <span class="digits">?</span>
      </p>
    </>
  );
}

function Shown({ said, reading, here }: { said: ReadBack; reading: Reading; here: Place }) {
  const figure = figureOf(reading);
  return (
    <>
      <p class="glance-what">
        {QUANTITIES[reading.quantity].label}
        {placeKey(reading.place) === placeKey(here) ? "" : `, ${placeLabel(reading.place)}`}
      </p>
      <p class="glance-figure">
        <span class="digits">{figure.digits}</span> <span class="unit">{figure.unit}</span> <span>{figure.way}</span>
      </p>
      <p class="glance-mark">{said.mark === undefined ? null : <Mark mark={said.mark} />}</p>
      {said.finding === undefined ? null : <p class="glance-why">{said.finding.why}</p>}
      {said.finding?.remedy === undefined ? null : <p class="remedy">{said.finding.remedy}</p>}
    </>
  );
}
