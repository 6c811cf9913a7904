// Hands the build over: to whom, with the hash of the log's last entry, as an entry of its own.
import { useState } from "preact/hooks";
import { stampEvent } from "../../extractors/bench/index.ts";
import type { Build } from "../../shared/build/index.ts";
import { dayOf } from "../parts/time.ts";
import type { Book } from "../store/book.ts";
import { person } from "../store/device.ts";
import { outboxState } from "../store/runner.ts";
import { stampFor } from "../store/words.ts";

export function HandOver({ book, build, open }: { book: Book; build: Build; open: number }) {
  const [to, setTo] = useState("");
  const { head } = book;
  if (build.handedOver !== undefined)
    return (
      <p>
        Handed over by {build.handedOver.by} on {dayOf(build.handedOver.at)}, at the entry <code>{build.handedOver.head}</code>.
      </p>
    );
  const { count, refused } = outboxState.value;
  if (head === undefined || count > 0 || refused.some((parcel) => parcel.build === build.id))
    return <p class="no-print">It can be handed over once every entry is in the shop.</p>;
  const send = (submit: Event) => {
    submit.preventDefault();
    const name = to.trim();
    const data = { by: person.value, head: head.hash, ...(name === "" ? {} : { to: name }) };
    void book.log([stampEvent(stampFor(book), "build.handed_over", data)]);
  };
  return (
    <form class="keep-form no-print" onSubmit={send}>
      <h2>Hand it over</h2>
      {open === 0 ? null : <p class="warning">{open} points are still open. They go into the record as they are.</p>}
      <label>
        To
        <input value={to} maxLength={120} onInput={(input) => setTo(input.currentTarget.value)} />
      </label>
      <button type="submit" class="stamp-button">
        Hand over, signed {person.value}
      </button>
    </form>
  );
}
