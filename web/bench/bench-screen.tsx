// The bench screen, to be read at two metres: where we are, what was heard, the figure, its verdict, what is still missing.

import { useCallback, useEffect, useMemo, useState } from "preact/hooks";
import { stampEvent } from "../../extractors/bench/index.ts";
import { type Build, focusOf } from "../../shared/build/index.ts";
import { placeLabel } from "../../shared/places/places.ts";
import type { Finding } from "../../shared/rules/index.ts";
import { planOf, stepTitle } from "../../shared/steps/plan.ts";
import type { BuildPageProps } from "../app.tsx";
import { missingAt } from "../book/standing.tsx";
import { TypeBox } from "../book/type-box.tsx";
import { exampleLine } from "../parts/figures.ts";
import { Unsent } from "../parts/unsent.tsx";
import { LiveCamera } from "../photo/live-camera.tsx";
import { linkTo } from "../route.ts";
import type { Book } from "../store/book.ts";
import { stampFor } from "../store/words.ts";
import { Cautions } from "./cautions.tsx";
import { Glance } from "./glance.tsx";
import { onSwitch } from "./keys.ts";
import { lastReadBack } from "./read-back.ts";
import { Shift } from "./shift.ts";
import { FaultWords, MicDead, Switch } from "./switch.tsx";
import { Waiting } from "./waiting.tsx";

export function BenchScreen({ book, build }: BuildPageProps) {
  const shift = useMemo(() => new Shift(book), [book]);
  useEffect(() => {
    const stop = onSwitch(() => shift.toggle());
    return () => {
      stop();
      void shift.stop();
    };
  }, [shift]);
  const say = useCallback((words: string) => shift.tell(words), [shift]);
  const findings = book.findings();
  const { step, place } = focusOf(build, book.device);
  const said = shift.said.value ?? lastReadBack(build, book.device, findings);
  return (
    <div class="bench">
      <h1 class="bench-name">{build.name}, at the vise</h1>
      <Where build={build} device={book.device} />
      <div class="bench-main">
        <Glance
          said={said}
          here={place}
          heard={shift.heard.value}
          tentative={shift.tentative.value}
          example={exampleLine(build.spec)}
        />
      </div>
      <Switch shift={shift} />
      <FaultWords shift={shift} />
      <div class="bench-asks">
        <Waiting book={book} build={build} />
        <Cautions build={build.id} spec={build.spec} step={step} />
      </div>
      <LiveCamera book={book} build={build} asked={shift.pictureAsked} say={say} />
      <div class="bench-rest">
        {shift.awake.value ? null : <p class="bench-note">The screen may go dark: set it to stay on in the device's settings.</p>}
        <Missing findings={findings} step={step} />
      </div>
      <Foot book={book} build={build} shift={shift} />
      <MicDead shift={shift} />
    </div>
  );
}

function Where({ build, device }: { build: Build; device: string }) {
  const { step, place } = focusOf(build, device);
  const where = placeLabel(place);
  return (
    <p class="bench-where">
      <span class="tag">{step === undefined ? "no step open" : stepTitle(step, build.spec)}</span>
      <b>{where === "" ? "say a place" : where}</b>
    </p>
  );
}

/** Lines shown before the rest is only counted. */
const LINES = 6;

function Missing({ findings, step }: { findings: readonly Finding[]; step: string | undefined }) {
  if (step === undefined) return <p class="bench-note">Open a step: say “open rings”, “open bores”, “open main bearings”.</p>;
  const missing = missingAt(findings, step);
  return (
    <section class="bench-missing" aria-label="Still to do at this step">
      <h2>Still to do: {missing.length === 0 ? "nothing" : missing.length}</h2>
      <ul>
        {missing.slice(0, LINES).map((finding) => (
          <li key={`${finding.rule}${finding.why}`}>{finding.why}</li>
        ))}
      </ul>
      {missing.length > LINES ? <p>and {missing.length - LINES} more</p> : null}
    </section>
  );
}

function Foot({ book, build, shift }: { book: Book; build: Build; shift: Shift }) {
  const [, redraw] = useState(0);
  return (
    <footer class="bench-foot">
      <TypeBox
        book={book}
        onLogged={() => {
          shift.said.value = undefined;
          redraw((n) => n + 1);
        }}
      />
      <div class="bench-foot-row">
        <StepPick book={book} build={build} />
        <Unsent />
        <a class="big-button big-plain" href={linkTo("book", book.id)}>
          Leave the vise
        </a>
      </div>
    </footer>
  );
}

function StepPick({ book, build }: { book: Book; build: Build }) {
  const open = focusOf(build, book.device).step ?? "";
  const pickStep = (id: string) => {
    const step = planOf(build.spec).find((one) => one.id === id);
    if (step !== undefined) void book.log([stampEvent(stampFor(book), "step.opened", { step: step.id })]);
  };
  return (
    <label class="step-pick">
      Open a step
      <select value={open} onChange={(change) => pickStep(change.currentTarget.value)}>
        <option value="" disabled>
          none open
        </option>
        {planOf(build.spec).map(({ id, title }) => (
          <option key={id} value={id}>
            {title}
          </option>
        ))}
      </select>
    </label>
  );
}
