// `thoubook hear` on the demo's own synthesised clips and on files that are no clips: lines in order, exit codes, errors.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it, vi } from "vitest";
import { SCENARIO } from "../../../demo-data/scenario.ts";
import { run } from "../../../server/cli/commands/hear.ts";

const CLIPS = fileURLToPath(new URL("../../../demo-data/clips/", import.meta.url));
const folder = mkdtempSync(path.join(tmpdir(), "thoubook-hear-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Run the command in this process, its output caught. */
async function hear(files: readonly string[], options: Record<string, unknown> = {}) {
  let out = "";
  let err = "";
  const onOut = vi.spyOn(process.stdout, "write").mockImplementation((text) => {
    out += String(text);
    return true;
  });
  const onErr = vi.spyOn(process.stderr, "write").mockImplementation((text) => {
    err += String(text);
    return true;
  });
  try {
    const code = await run([files], options);
    const lines = out.split("\n").filter((line) => line !== "");
    return { code, err, lines: lines.map((line) => JSON.parse(line) as Record<string, unknown>) };
  } finally {
    onOut.mockRestore();
    onErr.mockRestore();
  }
}

const clipSaying = (words: string) => {
  const clip = SCENARIO.find(({ say }) => say === words);
  if (clip === undefined) throw new Error(`Expected a demo clip that says "${words}"`);
  return path.join(CLIPS, `${clip.id}.wav`);
};

describe("thoubook hear", () => {
  it("writes a line a file, in order, and goes on after a bad one", async () => {
    const bad = path.join(folder, "bad.wav");
    writeFileSync(bad, "this is no sound");
    const good = clipSaying("end float fourteen thou");
    const { code, lines, err } = await hear([good, bad, path.join(folder, "none.wav"), good]);
    expect(code).toBe(1);
    expect(lines.map(({ file }) => file)).toEqual([good, bad, path.join(folder, "none.wav"), good]);
    expect(lines[0]).toMatchObject({
      heard: "end float fourteen thou",
      readings: [{ quantity: "crank_end_float", value: 0.014, unit: "in" }],
    });
    expect(Object.keys(lines[0] ?? {})).toEqual([
      "file",
      "heard",
      "seconds",
      "readings",
      "questions",
      "commands",
      "notes",
      "unread",
    ]);
    expect(lines[1]).toMatchObject({ heard: "", readings: [], questions: [], error: { code: "clip_not_wav" } });
    expect(lines[2]).toMatchObject({ error: { code: "clip_not_found" } });
    expect(err).toContain("clip_not_wav: Expected a RIFF/WAVE file");
  }, 120_000);

  it("takes the same context as parse", async () => {
    const context = JSON.stringify({ step: "bores" });
    const { code, lines } = await hear([clipSaying("bore two top thrust, three eight eight four one")], { context });
    expect(code).toBe(0);
    expect(lines[0]).toMatchObject({
      readings: [{ quantity: "bore_diameter", value: 3.8841, place: { cylinder: 2, depth: "top" } }],
    });
  }, 120_000);

  it.each([
    [[], {}, "Expected one or more WAV files"],
    [["a.wav"], { context: "{not json" }, "Expected a context object as JSON"],
    [["a.wav"], { context: '{"quantity":"no_such"}' }, "Expected a context object as JSON"],
    [["a.wav"], { spec: "/no/such/spec.yaml" }, "Expected a readable spec sheet"],
  ])("refuses bad arguments %j %j", async (files, options, message) => {
    const { code, err, lines } = await hear(files, options);
    expect(code).toBe(2);
    expect(lines).toEqual([]);
    expect(err).toContain(message);
  });
});
