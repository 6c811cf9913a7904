// The house rules that no linter checks: what may stand at the top, how long a file may be, and who may import whom.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const files = execFileSync("git", ["ls-files", "--cached", "--others", "--exclude-standard"], { encoding: "utf8" })
  .split("\n")
  .filter((file) => file !== "" && existsSync(file));
const sources = files.filter((file) => /^(server|web|extractors|shared)\/.*\.tsx?$/.test(file));

const TOP = [
  "README.md",
  "DEVELOPERS.md",
  "LICENSE",
  "package.json",
  "package-lock.json",
  "tsconfig.json",
  "tsconfig.build.json",
  "biome.json",
  "vite.config.ts",
  "vitest.config.ts",
  "server",
  "web",
  "extractors",
  "tests",
  "shared",
  "demo-data",
  ".ci",
  ".gitignore",
  ".npmrc",
];

/** Room -> rooms it may import from, besides itself. */
const DOORS: Readonly<Record<string, readonly string[]>> = {
  shared: [],
  extractors: ["shared"],
  web: ["shared", "extractors"],
  server: ["shared", "extractors", "demo-data"],
};

const IMPORT = /(?:from|import)\s*\(?\s*"(\.[^"]+)"/g;

/** Every relative import that leaves its room through no door, as "file -> target". */
function trespasses(file: string): string[] {
  const room = file.split("/")[0] ?? "";
  const out: string[] = [];
  for (const [, target] of readFileSync(file, "utf8").matchAll(IMPORT)) {
    const at = new URL(target ?? "", `file:///${file}`).pathname.split("/")[1] ?? "";
    if (at !== room && !(DOORS[room] ?? []).includes(at)) out.push(`${file} -> ${target}`);
  }
  return out;
}

describe("the house", () => {
  it("has nothing at the top that the layout does not name", () => {
    const tops = [...new Set(files.map((file) => file.split("/")[0] ?? ""))];
    expect(tops.filter((top) => !TOP.includes(top))).toEqual([]);
  });

  it("keeps every source file within 300 lines", () => {
    const long = sources.filter((file) => readFileSync(file, "utf8").split("\n").length > 301);
    expect(long).toEqual([]);
  });

  it("keeps the import directions", () => {
    expect(sources.flatMap(trespasses)).toEqual([]);
  });

  it("keeps Node out of shared/ and web/", () => {
    const rooms = sources.filter((file) => /^(shared|web)\//.test(file));
    expect(rooms.filter((file) => /from "node:/.test(readFileSync(file, "utf8")))).toEqual([]);
  });

  it("opens every source file with a line that says what it is", () => {
    const silent = sources.filter((file) => !/^(#!.*\n)?(\/\/|\/\*)/.test(readFileSync(file, "utf8")));
    expect(silent).toEqual([]);
  });
});
