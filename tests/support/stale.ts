// Whether something built is older than what it is built from.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";

export const isStale = (built: string, sources: readonly string[]): boolean =>
  !existsSync(built) || execFileSync("find", [...sources, "-newer", built, "-type", "f"], { encoding: "utf8" }) !== "";
