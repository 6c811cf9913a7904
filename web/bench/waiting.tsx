// Readings that were heard and wait for a yes: what they are, why they wait, and two large buttons beside the spoken answer.
import { stampEvent } from "../../extractors/bench/index.ts";
import type { Build, LoggedReading } from "../../shared/build/index.ts";
import { placeLabel } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import { figureLine } from "../parts/figures.ts";
import { Shape } from "../parts/mark.tsx";
import type { Book } from "../store/book.ts";
import { stampFor } from "../store/words.ts";
import { becauseWords } from "./read-back.ts";

interface WaitingProps {
  readonly book: Book;
  readonly build: Build;
  /** How many are shown; the rest are counted. */
  readonly most?: number;
}

export function Waiting({ book, build, most = 1 }: WaitingProps) {
  const waiting = [...build.waiting.values()].reverse();
  if (waiting.length === 0) return null;
  return (
    <section class="waiting" aria-label="Waiting for a yes">
      <h2>
        <Shape mark="waiting" /> Waiting for your yes
      </h2>
      <ul>
        {waiting.slice(0, most).map((logged) => (
          <WaitingRow key={logged.id} book={book} logged={logged} />
        ))}
      </ul>
      {waiting.length > most ? <p>and {waiting.length - most} more, one after the other</p> : null}
    </section>
  );
}

interface WaitingRowProps {
  readonly book: Book;
  readonly logged: LoggedReading;
}

function WaitingRow({ book, logged }: WaitingRowProps) {
  const answer = (type: "reading.confirmed" | "reading.rejected") => {
    void book.log([stampEvent(stampFor(book), type, { target: logged.id })]);
  };
  const { reading } = logged;
  const where = placeLabel(reading.place);
  const what = `${QUANTITIES[reading.quantity].label}${where === "" ? "" : `, ${where}`}, ${figureLine(reading)}`;
  return (
    <li>
      <p>
        <b>{what}</b>
        {reading.because === undefined ? null : <span class="because"> Waits because: {becauseWords(reading.because)}.</span>}
      </p>
      <div class="yes-no">
        <button type="button" class="big-button" onClick={() => answer("reading.confirmed")} aria-label={`Yes: ${what}`}>
          Yes
        </button>
        <button type="button" class="big-button big-plain" onClick={() => answer("reading.rejected")} aria-label={`No: ${what}`}>
          No
        </button>
      </div>
    </li>
  );
}
