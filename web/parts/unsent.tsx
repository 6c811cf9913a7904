// Always in sight: how many entries wait on this device and for how long, what the shop refused, whether the shop is in reach.
import { useEffect, useState } from "preact/hooks";
import { bench, openBook } from "../store/bench.ts";
import { asFile, outboxState } from "../store/runner.ts";
import { since } from "./time.ts";

const DAY_MS = 86_400_000;
const LOOK_AGAIN_MS = 20_000;

function useNow(): number {
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), LOOK_AGAIN_MS);
    return () => clearInterval(timer);
  }, []);
  return now;
}

export function Unsent() {
  const now = useNow();
  const { count, oldest, refused, trouble } = outboxState.value;
  const book = openBook.value;
  const reach = book === undefined ? undefined : book.live.value;
  const late = oldest !== undefined && now - Date.parse(oldest) > DAY_MS;
  const words = count === 0 || oldest === undefined ? "all sent" : `${count} unsent, oldest ${since(oldest, now)}`;
  return (
    <div class={`unsent-tag${count > 0 ? " unsent-some" : ""}${late ? " unsent-late" : ""}`} role="status">
      <b>{words}</b>
      {reach === undefined ? null : <span>{reach ? "shop in reach" : "shop out of reach"}</span>}
      {trouble?.code === "not_paired" ? <a href="/pair">this device is not paired</a> : null}
      {bench.value?.device.db === undefined ? <span>this browser keeps nothing</span> : null}
      {refused.length === 0 ? null : <span>{refused.length} refused by the shop</span>}
      {count + refused.length === 0 ? null : <SaveUnsent />}
    </div>
  );
}

function SaveUnsent() {
  const save = async () => {
    const parcels = (await bench.value?.device.keep.all()) ?? [];
    const url = URL.createObjectURL(asFile(parcels));
    const link = document.createElement("a");
    link.href = url;
    link.download = "unsent-entries.json";
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 10_000);
  };
  return (
    <button type="button" class="small-button" onClick={() => void save()}>
      Save to a file
    </button>
  );
}
