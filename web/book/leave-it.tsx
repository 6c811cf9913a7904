// Leaves a finding open on purpose: who says so and why go into the log, and the finding stays readable.
import { useState } from "preact/hooks";
import { stampEvent } from "../../extractors/bench/index.ts";
import type { Finding } from "../../shared/rules/index.ts";
import { openBook } from "../store/bench.ts";
import { person } from "../store/device.ts";
import { stampFor } from "../store/words.ts";

export function LeaveIt({ finding }: { finding: Finding }) {
  const [why, setWhy] = useState("");
  const leave = (submit: Event) => {
    submit.preventDefault();
    const book = openBook.value;
    if (book === undefined || why.trim() === "") return;
    const data = { rule: finding.rule, place: finding.place, why: why.trim(), by: person.value };
    void book.log([stampEvent(stampFor(book), "finding.accepted", data)]);
  };
  return (
    <details class="leave-it">
      <summary>Leave it as it is</summary>
      <form onSubmit={leave}>
        <label>
          Why
          <input value={why} maxLength={500} required onInput={(input) => setWhy(input.currentTarget.value)} />
        </label>
        <button type="submit" class="small-button">
          Sign: {person.value}
        </button>
      </form>
    </details>
  );
}
