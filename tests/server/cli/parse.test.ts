// The parse command: one line out for each line in, in order, whatever the lines are.
import { spawnSync } from "node:child_process";
import { describe, expect, test } from "vitest";

const MAIN = new URL("../../../dist/server/cli/main.js", import.meta.url).pathname;

function run(input: string, ...args: string[]) {
  const done = spawnSync(process.execPath, [MAIN, "parse", ...args], { input, encoding: "utf8" });
  const lines = done.stdout.split("\n").filter((line) => line !== "");
  return { code: done.status, lines: lines.map((line) => JSON.parse(line) as Record<string, unknown>), errors: done.stderr };
}

describe("thoubook parse", () => {
  test("answers plain text and JSON lines in order, fields in the contract's order", () => {
    const { code, lines, errors } = run(
      [
        "ring gap two top thirteen thou",
        JSON.stringify({ text: "fourteen thou", context: { quantity: "ring_end_gap", place: { cylinder: 3, ring: "top" } } }),
        "",
        "{not json",
        JSON.stringify({ text: "twelve thou", context: { quantity: "no_such", place: { cylinder: 1 } } }),
      ].join("\n"),
    );
    expect(code).toBe(0);
    expect(lines.length).toBe(5);
    expect(Object.keys(lines[0] ?? {})).toEqual(["text", "readings", "questions", "commands", "notes", "unread"]);
    expect(lines[0]?.readings).toMatchObject([{ quantity: "ring_end_gap", value: 0.013, unit: "in", do: "accept" }]);
    expect(lines[1]?.readings).toMatchObject([{ place: { cylinder: 3, ring: "top" }, value: 0.014 }]);
    expect(lines[2]).toEqual({ text: "", readings: [], questions: [], commands: [], notes: [], unread: [] });
    expect(lines[3]?.text).toBe("{not json");
    expect(errors).toContain("line 4: Expected JSON");
    expect(errors).toContain("ignored quantity");
  });

  test("reads plain numbers with --numbers and tells how with --why", () => {
    expect(run("two and a half litres\n", "--numbers").lines).toEqual([
      { text: "two and a half litres", numbers: [{ value: 2.5, unit: "l", span: [0, 21] }] },
    ]);
    const why = run("main two clearance two thou\n", "--why").lines[0]?.why as string[];
    expect(why[0]).toMatch(/^tokens: main/);
    expect(why.some((line) => line.startsWith("candidate "))).toBe(true);
  });

  test("refuses a spec sheet that is none", () => {
    const { code, errors } = run("five\n", "--spec", "/nowhere/spec.yaml");
    expect(code).toBe(2);
    expect(errors).toContain("Expected a readable spec sheet");
  });
});
