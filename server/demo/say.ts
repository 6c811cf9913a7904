// The demo's summary in words for the terminal.
import type { DemoState } from "../../shared/api/demo.ts";

/** One or two plain lines: what was heard and read, what came of it, how long it took. */
export function sayDemo(state: DemoState): string {
  if (state.state === "failed") return `Expected the demo build to be made, got a failure: ${state.message}`;
  if (state.state !== "there") return "The demo build is not made yet.";
  if (state.summary === undefined) return "The demo build is in the book already.";
  const { clips, silent, readings, waiting, questions, photos, findings, seconds } = state.summary;
  return [
    `Demo build made in ${seconds} s: ${clips} clips heard (${silent} with nothing for the book), ${readings} readings, ${waiting} waiting for a yes, ${questions} questions, ${photos} photos.`,
    `Findings: ${findings.fail} failed, ${findings.warn} to watch, ${findings.unknown} not settled, ${findings.pass} passed.`,
  ].join("\n");
}

/** Says each tenth of the day book once, with `say` writing a line. */
export function progressSayer(say: (line: string) => void): (progress: { done: number; total: number }) => void {
  let shown = -1;
  return ({ done, total }) => {
    const tenth = Math.floor((done / total) * 10);
    if (tenth > shown) say(`demo: ${done} of ${total} lines of its day book`);
    shown = Math.max(shown, tenth);
  };
}
