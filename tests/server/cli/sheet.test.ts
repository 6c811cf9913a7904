// The sheet command: sound sheets come back, faults are told by line and field, a new sheet is sound from the start.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { parse } from "../../../extractors/speech/index.ts";
import { run } from "../../../server/cli/commands/sheet.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { bearingAt } from "../../../shared/spec/engine.ts";
import { EXAMPLES } from "../../../shared/spec/examples/index.ts";
import { readSpecFile, writeSpecFile } from "../../../shared/spec/read.ts";
import { BenchLog } from "../../shared/rules/bench-log.ts";

const folder = mkdtempSync(join(tmpdir(), "thoubook-sheet-"));
let out = "";
let err = "";
beforeEach(() => {
  out = "";
  err = "";
  vi.spyOn(process.stdout, "write").mockImplementation((text) => {
    out += String(text);
    return true;
  });
  vi.spyOn(process.stderr, "write").mockImplementation((text) => {
    err += String(text);
    return true;
  });
});
afterEach(() => vi.restoreAllMocks());
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

describe("thoubook sheet", () => {
  it("prints a sound sheet back, as YAML or JSON", async () => {
    const path = file("demo.yaml", writeSpecFile(DEMO_SPEC));
    expect(await run([path], {})).toBe(0);
    expect(readSpecFile(out, "out")).toEqual({ ok: true, spec: DEMO_SPEC });
    out = "";
    expect(await run([path], { json: true })).toBe(0);
    expect(JSON.parse(out)).toEqual(DEMO_SPEC);
  });

  it("tells every fault on a line of its own and exits 1", async () => {
    const text = writeSpecFile(DEMO_SPEC).replace("cylinders: 4", "cylinders: four").replace("mains: 3", "mains: none");
    expect(await run([file("bad.yaml", text)], {})).toBe(1);
    expect(out).toBe("");
    expect(err.trim().split("\n")).toHaveLength(2);
    expect(err).toMatch(/^bad_field: .*bad\.yaml:8: engine\.cylinders: Expected number, got "four"$/m);
  });

  it("starts a new sheet that is sound and says its limits are common practice", async () => {
    expect(await run([undefined], { new: "Old Four, 1921", bore: "3.7500", stroke: "5.000", crankpin: "1.500" })).toBe(0);
    const read = readSpecFile(out, "new");
    expect(read).toMatchObject({ ok: true, spec: { id: "old-four-1921", nominals: { bore: ["3.7500"] } } });
  });

  it.each([
    [{ new: "X", bore: "wide", stroke: "4" }, "bad_sheet"],
    [{ kind: "flat" }, "bad_sheet"],
    [{ example: "eight" }, "bad_sheet"],
    [{ kind: "six", bearings: "brass" }, "bad_sheet"],
    [{ kind: "six", lubrication: "grease" }, "bad_sheet"],
    [{ kind: "six", valves: "sleeve" }, "bad_sheet"],
    [{ kind: "six", units: "cubits" }, "bad_sheet"],
    [{ kind: "four", bore: "68.00" }, "bad_sheet"],
    [{ kind: "four", bore: "3.5", stroke: "4", units: "metric" }, "bad_sheet"],
    [{ new: "X", bore: "3.5", stroke: "4", cylinders: "many" }, "bad_sheet"],
    [{}, "missing_file"],
  ])("%j is refused as %s with exit code 2", async (options, code) => {
    expect(await run([undefined], options)).toBe(2);
    expect(out).toBe("");
    expect(err).toMatch(new RegExp(`^${code}: .*Expected `));
  });

  it.each(
    (["single", "twin", "four", "six", "v8"] as const).flatMap((kind, k) =>
      (["poured", "shell", "roller"] as const).map((bearings, b) => ({
        kind,
        bearings,
        lubrication: (k + b) % 2 === 0 ? "splash" : "pressure",
        units: k % 2 === 0 ? "inch" : "metric",
      })),
    ),
  )("a sheet for $kind with $bearings, $lubrication, $units can be read back, spoken to and held against", async (options) => {
    expect(await run([undefined], options)).toBe(0);
    const read = readSpecFile(out, "kind.yaml");
    if (!read.ok) throw new Error(read.errors[0]?.say);
    const { spec } = read;
    expect(spec.units).toBe(options.units);
    expect(spec.engine.oiling).toBe(options.lubrication);
    expect(bearingAt(spec.engine, {})).toBe(options.bearings);
    const { cylinders } = spec.engine;
    const words = options.units === "inch" ? "twelve thou" : "thirty hundredths";
    const { readings } = parse(`ring gap ${cylinders} top, ${words}`, {}, spec);
    const [value, unit] = options.units === "inch" ? [0.012, "in"] : [0.3, "mm"];
    expect(readings).toMatchObject([{ place: { cylinder: cylinders, ring: "top" }, value, unit, do: "accept" }]);
    const past = parse(`ring gap ${cylinders + 1} top, ${words}`, {}, spec);
    expect(past.readings).toEqual([]);
    const log = new BenchLog(spec);
    log.read("crank_end_float", {}, 0.3, { unit: "mm" });
    expect(log.of("crank_end_float")).toMatchObject([{ verdict: "warn", unit: options.units === "inch" ? "in" : "mm" }]);
  });

  it.each(Object.entries(EXAMPLES))("prints the worked %s as it is", async (example, spec) => {
    expect(await run([undefined], { example })).toBe(0);
    expect(readSpecFile(out, "example.yaml")).toEqual({ ok: true, spec });
  });

  it("takes sizes with their unit, and others than the kind's counts", async () => {
    expect(await run([undefined], { kind: "four", bore: "68.00mm", stroke: "3.5", cylinders: "2", mains: "2" })).toBe(0);
    const read = readSpecFile(out, "two.yaml");
    expect(read).toMatchObject({
      ok: true,
      spec: { engine: { cylinders: 2, mains: 2, firingOrder: [] }, nominals: { bore: ["68.00mm"] } },
    });
  });

  it("a file that is not there exits 1", async () => {
    expect(await run([join(folder, "none.yaml")], {})).toBe(1);
    expect(err).toMatch(/^unreadable_file: /);
  });
});
