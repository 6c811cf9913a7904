// Takes in a file of unsent entries that another device saved, or this one before it was wiped: they go to the shop with the rest.
import { useState } from "preact/hooks";
import { bench } from "../store/bench.ts";
import { readCarried } from "../store/carry-file.ts";
import "../photo/photo.css";

export function TakeIn() {
  const [said, setSaid] = useState("");
  const take = async (file: File) => {
    const outbox = bench.value?.outbox;
    if (outbox === undefined) return;
    try {
      const { parcels, blobs } = await readCarried(file);
      const fresh = await outbox.takeIn(parcels, blobs);
      setSaid(`Taken in: ${fresh} of ${parcels.length} events. They go to the shop as they were made.`);
      void outbox.drain();
    } catch (error) {
      setSaid(`Not taken in: ${error instanceof Error ? error.message : String(error)}.`);
    }
  };
  return (
    <div class="take-in">
      <label class="small-button hand-in-pick">
        Take in a file of unsent entries
        <input
          type="file"
          onChange={(event) => {
            const { currentTarget } = event;
            const [file] = currentTarget.files ?? [];
            if (file !== undefined) void take(file);
            currentTarget.value = "";
          }}
        />
      </label>
      <p role="status" aria-live="polite">
        {said}
      </p>
    </div>
  );
}
