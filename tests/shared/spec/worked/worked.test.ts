// The whole job with each of the worked engines: every line of its day book comes to what it has to, none lost and none misfiled.
import { describe, expect, it } from "vitest";
import { SIX_DAY_BOOK } from "../../../../demo-data/worked/six.ts";
import { TWIN_DAY_BOOK } from "../../../../demo-data/worked/twin.ts";
import type { WorkedLine } from "../../../../demo-data/worked/worked-line.ts";
import { logUtterance } from "../../../../extractors/bench/index.ts";
import { parse } from "../../../../extractors/speech/index.ts";
import { apply } from "../../../../shared/build/build.ts";
import { type Build, contextOf, foldBuild } from "../../../../shared/build/index.ts";
import type { BenchEvent } from "../../../../shared/events/events.ts";
import type { Parsed, Reading } from "../../../../shared/events/reading.ts";
import { placeKey } from "../../../../shared/places/places.ts";
import { evaluate } from "../../../../shared/rules/index.ts";
import { EXAMPLES } from "../../../../shared/spec/examples/index.ts";
import { nonsenseIn } from "../../../../shared/spec/sense.ts";
import type { Spec } from "../../../../shared/spec/spec.ts";
import { planOf } from "../../../../shared/steps/plan.ts";
import { BenchLog } from "../../rules/bench-log.ts";
import { V8, V8_DAY_BOOK } from "./v8.ts";

const DEVICE = "vise";

const readingText = ({ quantity, place, digits, unit, over, do: does }: Reading): string =>
  [
    quantity,
    placeKey(place),
    digits,
    unit,
    over === undefined ? "" : `over ${over.digits} ${over.unit}`,
    does === "confirm" ? "?" : "",
  ]
    .filter((part) => part !== "")
    .join(" ");

const comesTo = ({ readings, commands, notes }: Parsed): string =>
  [
    ...readings.map(readingText),
    ...commands.map(({ command, step }) => (step === undefined ? command : `${command} ${step}`)),
    ...notes.map(({ kind, state }) => (state === undefined ? kind : `${kind} ${state}`)),
  ].join("; ");

interface Worked {
  readonly build: Build;
  readonly events: readonly BenchEvent[];
  readonly wrong: readonly string[];
  readonly unread: readonly string[];
}

/** The day book said line by line at one device, each in the context that the lines before it left. */
function work(spec: Spec, lines: readonly WorkedLine[]): Worked {
  const log = new BenchLog(spec);
  const build = log.fold();
  const stamp = {
    build: build.id,
    device: DEVICE,
    by: "bench",
    now: () => "2026-01-05T09:00:00.000Z",
    nextSeq: () => log.events.length + 1,
  };
  const wrong: string[] = [];
  const unread: string[] = [];
  for (const [said, expected] of lines) {
    const parsed = parse(said, contextOf(build, DEVICE), build.spec);
    const got = comesTo(parsed);
    if (got !== expected) wrong.push(`${said}: expected ${expected}, got ${got}`);
    unread.push(...parsed.unread);
    const { events } = logUtterance({ parsed, build, stamp: stamp as never, heard: { by: "typed" } });
    for (const event of events) {
      log.events.push(event);
      apply(build, event);
    }
  }
  log.add("build.handed_over", { by: "bench", head: "0".repeat(64) });
  return { build: log.fold(), events: log.events, wrong, unread };
}

describe.each([
  ["side-valve six", EXAMPLES.six, SIX_DAY_BOOK],
  ["opposed twin in millimetres", EXAMPLES.twin, TWIN_DAY_BOOK],
  ["V8", V8, V8_DAY_BOOK],
] as const)("the whole job of the %s", (_name, spec, lines) => {
  const worked = work(spec, lines);
  const readings = lines.filter(([, comes]) => / (in|mm|um|psi|kPa|cc|ft_lbf|N_m|degC|min)\b/.test(comes));

  it("is on a sound sheet and has sixty lines and more", () => {
    expect(nonsenseIn(spec)).toEqual([]);
    expect(lines.length).toBeGreaterThanOrEqual(60);
  });

  it("files every line as it was said", () => {
    expect(worked.wrong).toEqual([]);
    expect(worked.unread).toEqual([]);
  });

  it("loses no reading: all stand in the build, or gave way to a newer one of the same place", () => {
    const all = [...worked.build.readings.values()];
    expect(all.map(({ reading }) => readingText({ ...reading, do: "accept" }))).toEqual(
      readings.map(([, comes]) => comes.replace(/ \?$/, "")),
    );
    expect(all.filter(({ status }) => status !== "counted" && status !== "superseded")).toEqual([]);
    expect(worked.build.setAside ?? []).toEqual([]);
  });

  it("opens the steps of its own plan in their order, and is handed over", () => {
    const findings = evaluate(worked.build);
    expect(findings.filter(({ rule, verdict }) => rule === "step_order" && verdict !== "pass")).toEqual([]);
    const steps = planOf(spec).map(({ id }) => id);
    for (const step of worked.build.steps.keys()) expect(steps).toContain(step);
    expect(worked.build.handedOver).toBeDefined();
    expect(findings.filter(({ why }) => why.startsWith("It cannot be worked out"))).toEqual([]);
  });

  it("is read again from its log the same", () => {
    expect(evaluate(foldBuild(worked.events))).toEqual(evaluate(worked.build));
  });
});

describe("the twin", () => {
  it("is told of everything in millimetres, and of no shim, shell, dipper or cap", () => {
    const findings = evaluate(work(EXAMPLES.twin, TWIN_DAY_BOOK).build);
    const text = findings.flatMap(({ why, limit, remedy }) => [why, limit ?? "", remedy ?? ""]).join("\n");
    expect(findings.length).toBeGreaterThan(40);
    expect(text).not.toMatch(/\d in\b|thou\b|psi|lbf/);
    expect(text).not.toMatch(/shim|shell|dipper|babbitt|cap marks|\bcap\b/i);
  });
});
