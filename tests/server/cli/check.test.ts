// The check command on exports: findings for what can be read, one sentence for what cannot.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, describe, expect, it, vi } from "vitest";
import { checkExport, run } from "../../../server/cli/commands/check.ts";
import { findingSchema } from "../../../shared/rules/index.ts";
import { BenchLog } from "../../shared/rules/bench-log.ts";

const folder = mkdtempSync(join(tmpdir(), "thoubook-check-"));
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => vi.restoreAllMocks());

function exported(log: BenchLog): string {
  const events = log.events.map((event, i) => ({ seq: i + 1, hash: "0".repeat(64), receivedAt: event.at, event }));
  return JSON.stringify({ format: "thoubook-build/1", build: log.events[0]?.build, events });
}

function troubled(): BenchLog {
  const log = new BenchLog();
  log.read("bearing_clearance", { rod: 2 }, 0.0045);
  log.read("crank_end_float", {}, 0.006);
  return log;
}

describe("thoubook check", () => {
  it("prints the findings as one JSON array and exits 0, failures or not", async () => {
    const file = join(folder, "build.json");
    writeFileSync(file, exported(troubled()));
    const out: string[] = [];
    vi.spyOn(process.stdout, "write").mockImplementation((text) => out.push(String(text)) > 0);
    expect(await run([file])).toBe(0);
    const findings = JSON.parse(out.join(""));
    expect(findings.map((row: { rule: string; verdict: string }) => [row.rule, row.verdict])).toEqual([
      ["rod_clearance", "fail"],
      ["crank_end_float", "pass"],
    ]);
    for (const finding of findings) expect(findingSchema.safeParse(finding).success).toBe(true);
  });

  it("reads events in their stored order, however they lie in the file", () => {
    const file = JSON.parse(exported(troubled()));
    file.events.reverse();
    expect(checkExport(JSON.stringify(file), "f")).toEqual(checkExport(exported(troubled()), "f"));
  });

  it.each([
    ["", "not_json"],
    ["{", "not_json"],
    ["null", "not_an_export"],
    ['{"format":"thoubook-build/2"}', "not_an_export"],
    ['{"format":"thoubook-build/1","build":"01890000-0000-7000-8000-000000000000","events":[]}', "empty_build"],
  ])("%s is refused as %s", (text, code) => {
    expect(checkExport(text, "f.json")).toMatchObject({ ok: false, code, say: expect.stringMatching(/^Expected .+ f\.json/) });
  });

  it("names the field of the event at fault", () => {
    const file = JSON.parse(exported(troubled()));
    file.events[1].event.data.reading.value = "a lot";
    const result = checkExport(JSON.stringify(file), "f.json");
    expect(result).toMatchObject({ ok: false, code: "not_an_export" });
    if (!result.ok) expect(result.say).toContain("events[1].event.data.reading.value");
  });

  it("a file that is not there exits 1, none at all exits 2", async () => {
    const err: string[] = [];
    vi.spyOn(process.stderr, "write").mockImplementation((text) => err.push(String(text)) > 0);
    expect(await run([join(folder, "nothing.json")])).toBe(1);
    expect(await run([undefined])).toBe(2);
    expect(err.join("")).toMatch(/^unreadable_file: Expected .*\nmissing_file: Expected /s);
  });
});
