// Every rule has a log that trips it and one that passes, following it event by event comes to the same as checking it whole,
// and every finding keeps its shape and shows its arithmetic.
import { describe, expect, it } from "vitest";
import { foldBuild, openBuild } from "../../../shared/build/build.ts";
import { Evaluator, evaluate, findingSchema, RULES } from "../../../shared/rules/index.ts";
import { BenchLog } from "./bench-log.ts";
import { FIXTURES } from "./fixtures.ts";

describe("fixtures", () => {
  it("there is one for every rule, and none for a rule that is not", () => {
    expect([...new Set(FIXTURES.map((fixture) => fixture.rule))].sort()).toEqual(RULES.map((rule) => rule.id).sort());
  });

  it.each(FIXTURES.map((fixture) => [fixture.name, fixture] as const))("%s trips", (name, fixture) => {
    const log = new BenchLog(fixture.spec);
    fixture.trips(log);
    const tripped = log.of(name).filter((finding) => finding.verdict !== "pass");
    expect(tripped.length).toBeGreaterThan(0);
    for (const finding of tripped) {
      expect(finding.verdict).toBe(fixture.verdict);
      expect(finding.remedy).toMatch(/^[A-Z].+\.$/);
    }
  });

  it.each(FIXTURES.map((fixture) => [fixture.name, fixture] as const))("%s passes", (name, fixture) => {
    const log = new BenchLog(fixture.spec);
    fixture.passes(log);
    const found = log.of(name);
    expect(found.filter((finding) => finding.verdict !== "pass")).toEqual([]);
    expect(found.length > 0).toBe(fixture.silent !== true);
  });
});

/** One log made of all fixtures, tripping and passing in turn. */
function everything(): BenchLog {
  const log = new BenchLog();
  for (const fixture of FIXTURES) {
    fixture.trips(log);
    fixture.passes(log);
  }
  const first = log.findings().find((finding) => finding.verdict === "fail");
  if (first !== undefined)
    log.add("finding.accepted", { rule: first.rule, place: first.place, why: "shown to the customer", by: "bench" });
  log.add("step.opened", { step: "hand_over" });
  return log;
}

describe("event by event", () => {
  it("comes to the same findings as all at once", () => {
    const log = everything();
    const [first, ...rest] = log.events;
    if (first === undefined) throw new Error("an empty log");
    const following = new Evaluator(openBuild(first));
    for (const [i, event] of rest.entries()) {
      following.apply(event);
      if (i % 7 === 0) expect(following.findings()).toEqual(evaluate(foldBuild(log.events.slice(0, i + 2))));
    }
    expect(following.findings()).toEqual(log.findings());
  });

  it("an event that came before changes nothing", () => {
    const log = everything();
    const following = new Evaluator(log.fold());
    const before = following.findings();
    for (const event of log.events.slice(1)) expect(following.apply(event)).toEqual([]);
    expect(following.findings()).toEqual(before);
  });

  it("tells what an event changed", () => {
    const log = new BenchLog();
    const following = new Evaluator(log.fold());
    log.read("crank_end_float", {}, 0.014);
    const [event] = log.events.slice(-1);
    if (event === undefined) throw new Error("no event");
    const changes = following.apply(event).filter(({ before, after }) => before !== after);
    expect(changes.map(({ before, after }) => [before?.verdict, after?.rule, after?.verdict])).toEqual([
      [undefined, "crank_end_float", "fail"],
    ]);
  });
});

describe("every finding", () => {
  it("has the shape that is promised, and rests on events of the log", () => {
    const log = everything();
    const ids = new Set(log.events.map((event) => event.id));
    const findings = log.findings();
    expect(findings.length).toBeGreaterThan(100);
    for (const finding of findings) {
      expect(findingSchema.safeParse(finding).error).toBeUndefined();
      expect(finding.why).toMatch(/\.$/);
      for (const id of finding.evidence) expect(ids).toContain(id);
    }
  });
  it("that was accepted says by whom, and stands open no longer", () => {
    expect(
      everything()
        .findings()
        .filter((finding) => finding.accepted !== undefined)
        .map((finding) => finding.accepted),
    ).toContain("bench: shown to the customer");
  });
});
