// Builds the program once before the tests, where it is older than its sources: commands run as built, as a person runs them.
import { execFileSync } from "node:child_process";
import { isStale } from "../support/stale.ts";

const SOURCES = ["server", "extractors", "shared", "demo-data", "tsconfig.json", "tsconfig.build.json"];

export default function build(): void {
  if (isStale("dist/server/cli/main.js", SOURCES)) execFileSync("npm", ["run", "--silent", "build:server"], { stdio: "inherit" });
}
