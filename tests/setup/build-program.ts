// Builds the program once before the tests, where it is older than its sources: commands run as built, as a person runs them.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";

const BUILT = "dist/server/cli/main.js";
const SOURCES = ["server", "extractors", "shared", "demo-data", "tsconfig.json", "tsconfig.build.json"];

export default function build(): void {
  const newer = () => execFileSync("find", [...SOURCES, "-newer", BUILT, "-type", "f"], { encoding: "utf8" });
  if (!existsSync(BUILT) || newer() !== "") execFileSync("npm", ["run", "--silent", "build:server"], { stdio: "inherit" });
}
