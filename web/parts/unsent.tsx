// Always in sight: how many entries wait on this device and for how long, what the shop has not taken, whether it is in reach.
import { useEffect, useState } from "preact/hooks";
import { bench, openBook } from "../store/bench.ts";
import { mayWrite } from "../store/caller.ts";
import type { Trouble } from "../store/outbox.ts";
import { outboxState } from "../store/runner.ts";
import { SaveToFile } from "./held-back.tsx";
import { entriesAmong } from "./held-words.ts";
import { since } from "./time.ts";

const DAY_MS = 86_400_000;
const LOOK_AGAIN_MS = 20_000;
/** A clock that is further off than this puts entries under a wrong hour. */
const CLOCK_MS = 5 * 60_000;

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
  const { count, oldest, refused, trouble, notKept, aheadMs = 0 } = outboxState.value;
  const reach = openBook.value?.live.value;
  const late = oldest !== undefined && now - Date.parse(oldest) > DAY_MS;
  const words = count === 0 || oldest === undefined ? "all sent" : `${count} unsent, oldest ${since(oldest, now)}`;
  return (
    <div class={`unsent-tag${count > 0 ? " unsent-some" : ""}${late ? " unsent-late" : ""}`} role="status">
      <b>{count === 0 && refused.length > 0 ? "the rest is sent" : words}</b>
      {notKept === undefined ? null : <b class="unsent-alarm">not kept: {notKept.message}</b>}
      {mayWrite() ? null : <span>looks only</span>}
      {reach === undefined ? null : <span>{reach ? "shop in reach" : "shop out of reach"}</span>}
      <TroubleWords trouble={trouble} />
      {Math.abs(aheadMs) < CLOCK_MS ? null : <span>this clock is {offWords(aheadMs)}</span>}
      {bench.value?.device.db === undefined ? <span>this browser keeps nothing</span> : null}
      {refused.length === 0 ? null : <a href="#/shelf">{entriesAmong(refused).length} not in the shop</a>}
      {count + refused.length === 0 ? null : <SaveToFile label="Save to a file" />}
    </div>
  );
}

function TroubleWords({ trouble }: { trouble: Trouble | undefined }) {
  if (trouble?.code === "not_paired") return <a href="/pair">this device is not paired</a>;
  if (trouble?.code === "forbidden_role") return <span>the shop lets this device only look</span>;
  return trouble === undefined || trouble.code === "out_of_reach" ? null : <span>{trouble.message}</span>;
}

/** "26 h ahead", "12 min behind". */
function offWords(aheadMs: number): string {
  const span = since(new Date(0).toISOString(), Math.abs(aheadMs));
  return `${span} ${aheadMs > 0 ? "ahead" : "behind"}`;
}
