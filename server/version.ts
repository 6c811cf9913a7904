// The version as package.json has it.
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The project's root: the nearest folder upward that holds package.json (one level deeper when run from dist/). */
export function projectRoot(from = dirname(fileURLToPath(import.meta.url))): string {
  for (let dir = from; ; dir = dirname(dir)) {
    if (existsSync(join(dir, "package.json"))) return dir;
    if (dir === dirname(dir)) throw new Error(`Expected package.json above ${from}, got none`);
  }
}

export const VERSION: string = (JSON.parse(readFileSync(join(projectRoot(), "package.json"), "utf8")) as { version: string })
  .version;
