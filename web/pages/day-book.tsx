// The day book: a build's log, newest first, with a sieve for cylinder and step, the box for words, and how the build stands.

import { useMemo, useState } from "preact/hooks";
import type { Build } from "../../shared/build/index.ts";
import { focusOf } from "../../shared/build/index.ts";
import type { Finding } from "../../shared/rules/index.ts";
import { stepTitle } from "../../shared/steps/plan.ts";
import { STEP_IDS } from "../../shared/steps/steps.ts";
import type { BuildPageProps } from "../app.tsx";
import { entriesOf, passes, type Sieve } from "../book/entries.ts";
import { EntryRow } from "../book/entry.tsx";
import { Standing, Tally } from "../book/standing.tsx";
import { TypeBox } from "../book/type-box.tsx";
import { Tag } from "../parts/tag.tsx";
import { dayOf } from "../parts/time.ts";
import { findingsByEvent } from "../parts/verdict.ts";
import { HandInBox } from "../photo/hand-in-box.tsx";
import { linkTo, route } from "../route.ts";

/** Entries shown at first, and more at each asking. */
const SHEET = 60;

export function DayBook({ book, build, tick }: BuildPageProps) {
  const { query } = route.value;
  const cylinder = Number(query.get("cylinder") ?? Number.NaN);
  const step = query.get("step");
  const sieve: Sieve = { ...(Number.isFinite(cylinder) ? { cylinder } : {}), ...(step === null ? {} : { step }) };
  const [most, setMost] = useState(SHEET);
  // `tick` stands for the build, which is changed in place.
  const entries = useMemo(() => entriesOf(book.rows()).reverse(), [book, tick]);
  const findings = useMemo(() => book.findings(), [book, tick]);
  const byEvent = useMemo(() => findingsByEvent(findings), [findings]);
  const shown = entries.filter((entry) => passes(entry, sieve));
  const openStep = focusOf(build, book.device).step ?? lastOpenStep(build);
  return (
    <div class="page day-book">
      <div class="day-main">
        <h1>{build.name}</h1>
        <button type="button" class="tally-top" onClick={() => document.querySelector(".standing")?.scrollIntoView()}>
          <Tally findings={findings} />
          <span>See what is open</span>
        </button>
        <TypeBox book={book} />
        <HandInBox book={book} build={build} />
        <SieveBar build={build} sieve={sieve} />
        <p class="quiet" role="status">
          {shown.length === entries.length ? `${entries.length} entries` : `${shown.length} of ${entries.length} entries`}
        </p>
        <Sheet entries={shown.slice(0, most)} build={build} byEvent={byEvent} />
        {shown.length > most ? (
          <button type="button" class="stamp-button" onClick={() => setMost(most + SHEET)}>
            Older entries
          </button>
        ) : null}
      </div>
      <aside class="day-side">
        <Standing findings={findings} step={openStep} />
      </aside>
    </div>
  );
}

/** The step opened last that is not closed, whichever device opened it. */
function lastOpenStep(build: Build): string | undefined {
  const open = [...build.steps.values()].filter(({ closed }) => closed === undefined);
  return open.sort((a, b) => b.openedOrder - a.openedOrder)[0]?.step;
}

interface SheetProps {
  readonly entries: ReturnType<typeof entriesOf>;
  readonly build: Build;
  readonly byEvent: ReadonlyMap<string, readonly Finding[]>;
}

function Sheet({ entries, build, byEvent }: SheetProps) {
  const days: { day: string; entries: SheetProps["entries"] }[] = [];
  for (const entry of entries) {
    const day = dayOf(entry.at);
    const last = days.at(-1);
    if (last?.day === day) last.entries.push(entry);
    else days.push({ day, entries: [entry] });
  }
  return (
    <>
      {days.map(({ day, entries: ofDay }) => (
        <section key={day} class="day">
          <h2>{day}</h2>
          <ol class="entries">
            {ofDay.map((entry) => (
              <EntryRow key={entry.id} entry={entry} build={build} byEvent={byEvent} />
            ))}
          </ol>
        </section>
      ))}
    </>
  );
}

function SieveBar({ build, sieve }: { build: Build; sieve: Sieve }) {
  const go = (next: Sieve) => {
    const query: Record<string, string> = {};
    if (next.cylinder !== undefined) query.cylinder = String(next.cylinder);
    if (next.step !== undefined) query.step = next.step;
    location.hash = linkTo("book", build.id, undefined, query);
  };
  const { cylinder: _cylinder, ...anyCylinder } = sieve;
  const { step: _step, ...anyStep } = sieve;
  const numbers = Array.from({ length: build.spec.engine.cylinders }, (_, index) => index + 1);
  return (
    <div class="sieve">
      <fieldset class="sieve-cylinders">
        <legend>Cylinder</legend>
        <Tag on={sieve.cylinder === undefined} onPick={() => go(anyCylinder)}>
          all
        </Tag>
        {numbers.map((number) => (
          <Tag
            key={number}
            on={sieve.cylinder === number}
            onPick={() => go({ ...sieve, cylinder: number })}
            label={`cylinder ${number}`}
          >
            {number}
          </Tag>
        ))}
      </fieldset>
      <label class="sieve-step">
        Step
        <select
          value={sieve.step ?? ""}
          onChange={(change) => go(change.currentTarget.value === "" ? anyStep : { ...sieve, step: change.currentTarget.value })}
        >
          <option value="">all steps</option>
          {STEP_IDS.filter((id) => build.steps.has(id) || id === sieve.step).map((id) => (
            <option key={id} value={id}>
              {stepTitle(id, build.spec)}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}
