// The large area that starts the shift, listens and leaves be, and says which of these it is doing.
import { Shape } from "../parts/mark.tsx";
import type { MarkName } from "../parts/verdict.ts";
import { FAULTS } from "./fault.ts";
import type { Shift, ShiftState } from "./shift.ts";

interface Face {
  readonly title: string;
  readonly hint: string;
  readonly mark: MarkName;
}

const FACES: Readonly<Record<ShiftState, Face>> = {
  off: { title: "Start listening", hint: "one tap for microphone, screen and voice", mark: "free" },
  starting: { title: "Starting", hint: "loading the ear", mark: "waiting" },
  armed: { title: "Listening", hint: "tap, key or “pause” to leave be", mark: "pass" },
  paused: { title: "Not listening", hint: "tap, key or “resume” to listen", mark: "unknown" },
  dead: { title: "Mic dead", hint: "tap to start it again", mark: "fail" },
  fault: { title: "Start listening", hint: "try again", mark: "fail" },
};

/** Level meter of ten bars from -60 to 0 dB; a picture only, its state is in the words. */
function Level({ db }: { db: number }) {
  const bars = Math.max(0, Math.min(10, Math.round((db + 60) / 5)));
  return (
    <svg class="level" viewBox="0 0 100 12" aria-hidden="true" preserveAspectRatio="none">
      {Array.from({ length: 10 }, (_, index) => (
        <rect key={index} x={index * 10 + 1} y="0" width="8" height="12" class={index < bars ? "bar-on" : "bar-off"} />
      ))}
    </svg>
  );
}

export function Switch({ shift }: { shift: Shift }) {
  const state = shift.state.value;
  const face = FACES[state];
  // What is said while the ear is loading is heard as soon as it has.
  const talking = (state === "armed" || state === "starting") && shift.talking.value;
  return (
    <button type="button" class={`switch switch-${state}`} onClick={() => shift.toggle()} aria-pressed={state === "armed"}>
      <span class="switch-title">
        <Shape mark={face.mark} />
        {talking ? "Hearing you" : face.title}
      </span>
      <span>{face.hint}</span>
      {state === "armed" ? <Level db={shift.level.value} /> : null}
    </button>
  );
}

/** Covers everything: a microphone that died unseen costs a day's readings. */
export function MicDead({ shift }: { shift: Shift }) {
  if (shift.state.value !== "dead") return null;
  return (
    <div class="mic-dead" role="alertdialog" aria-labelledby="mic-dead-title" aria-describedby="mic-dead-words">
      <Shape mark="fail" />
      <h2 id="mic-dead-title">Mic dead</h2>
      <p id="mic-dead-words">No sound has come from the microphone for a second. Nothing you say is heard.</p>
      <button type="button" class="stamp-button" onClick={() => void shift.start()}>
        Start it again
      </button>
    </div>
  );
}

export function FaultWords({ shift }: { shift: Shift }) {
  const code = shift.fault.value;
  if (code === undefined) return null;
  return (
    <div class="warning bench-fault" role="alert">
      <h2>{FAULTS[code].title}</h2>
      <p>{FAULTS[code].words}</p>
      <p>Typing works: the box is below.</p>
    </div>
  );
}
