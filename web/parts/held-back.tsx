// Entries of this device that the shop has not, and that do not go to it by themselves: why, and what can be done. They stay here
// until the shop has them or a person lets them go.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { bench } from "../store/bench.ts";
import { asFile } from "../store/carry-file.ts";
import type { Parcel, Refusal } from "../store/parcel.ts";
import { outboxState } from "../store/runner.ts";
import { entriesAmong, heldWords } from "./held-words.ts";
import { clockOf, dayOf } from "./time.ts";

const LINES = 5;

interface Wording {
  title(count: string): string;
  readonly say: string;
  readonly again: string;
  /** Whether a person may let go of them, once they are in a file. */
  readonly mayGo: boolean;
}

const WORDS: Readonly<Record<Refusal["kind"], Wording>> = {
  lost: {
    title: (count) => `The shop has lost ${count}`,
    say: "The shop had confirmed this; its book has since been put back from an older copy. This device still has all of it.",
    again: "Give them back",
    mayGo: true,
  },
  refused: {
    title: (count) => `The shop refused ${count}`,
    say: "Kept on this device only, and counted nowhere.",
    again: "Send again",
    mayGo: true,
  },
  aside: {
    title: (count) => `Set aside: ${count}`,
    say: "The shop failed here. All the rest has gone on; this is tried again every few minutes.",
    again: "Try again now",
    mayGo: false,
  },
};

const plural = (count: number) => `${count} ${count === 1 ? "entry" : "entries"}`;

export function HeldBack() {
  const { refused, anotherShop, count } = outboxState.value;
  if (refused.length === 0 && anotherShop !== true) return null;
  return (
    <aside aria-label="Entries that the shop has not">
      {anotherShop === true ? <AnotherShop count={count} /> : null}
      {(["lost", "refused", "aside"] as const).map((kind) => {
        const parcels = refused.filter((parcel) => (parcel.refused?.kind ?? "refused") === kind);
        return parcels.length === 0 ? null : <Group key={kind} kind={kind} parcels={parcels} />;
      })}
    </aside>
  );
}

function Group({ kind, parcels }: { kind: Refusal["kind"]; parcels: readonly Parcel[] }) {
  const [saved, setSaved] = useState<ReadonlySet<string>>(new Set());
  const { title, say, again, mayGo } = WORDS[kind];
  const ids = parcels.map(({ id }) => id);
  const entries = entriesAmong(parcels);
  const outbox = bench.value?.outbox;
  return (
    <Held title={title(plural(entries.length))} kind={kind}>
      <p>{say}</p>
      <ul>
        {entries.slice(0, LINES).map((parcel) => (
          <li key={parcel.id}>
            {heldWords(parcel)}{" "}
            <small>
              {dayOf(parcel.at)}, {clockOf(parcel.at)}
            </small>
            {kind === "lost" ? null : <small class="held-why">{parcel.refused?.message}</small>}
          </li>
        ))}
        {entries.length > LINES ? <li>and {entries.length - LINES} more</li> : null}
      </ul>
      <div class="held-acts">
        <button type="button" class="stamp-button" onClick={() => void outbox?.sendAgain(ids)}>
          {again}
        </button>
        <SaveToFile label="Save to a file" parcels={parcels} onSaved={() => setSaved(new Set(ids))} />
        {mayGo && ids.every((id) => saved.has(id)) ? <LetGo onLetGo={() => void outbox?.remove(ids)} /> : null}
      </div>
    </Held>
  );
}

function AnotherShop({ count }: { count: number }) {
  return (
    <Held title="Another shop’s book answers at this address" kind="lost">
      <p>
        This device keeps entries for another one. Nothing is sent to this book{count === 0 ? "" : `, and ${plural(count)} wait`}.
        Start the shop on its own folder again; or, where this is the right book now, say so.
      </p>
      <div class="held-acts">
        <button
          type="button"
          class="stamp-button"
          onClick={() => void bench.value?.outbox.takeShop().then(() => location.reload())}
        >
          This is the right book now
        </button>
      </div>
    </Held>
  );
}

function Held({ title, kind, children }: { title: string; kind: Refusal["kind"]; children: ComponentChildren }) {
  return (
    <details class={`held-back held-${kind}`} open={kind !== "aside"}>
      <summary>
        <h2>{title}</h2>
      </summary>
      {children}
    </details>
  );
}

/** Asked twice: it is the last copy. */
function LetGo({ onLetGo }: { onLetGo: () => void }) {
  const [asked, setAsked] = useState(false);
  return (
    <button type="button" class="small-button" onClick={() => (asked ? onLetGo() : setAsked(true))}>
      {asked ? "Yes, the file is enough" : "Let them go here"}
    </button>
  );
}

/** Saves these parcels, or with none given all that this device has and the shop has not. */
export function SaveToFile({ label, parcels, onSaved }: { label: string; parcels?: readonly Parcel[]; onSaved?: () => void }) {
  const save = async () => {
    const keep = bench.value?.device.keep;
    if (keep === undefined) return;
    const url = URL.createObjectURL(await asFile(parcels ?? (await keep.all()), keep));
    const link = document.createElement("a");
    link.href = url;
    link.download = "unsent-entries.thou";
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
    onSaved?.();
  };
  return (
    <button type="button" class="small-button" onClick={() => void save()}>
      {label}
    </button>
  );
}
