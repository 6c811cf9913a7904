// Starts TypeScript of ours as a child process that cannot outlive the test's process.
import { type ChildProcess, spawn } from "node:child_process";
import { join } from "node:path";

const ROOT = join(import.meta.dirname, "../..");
const LEASH = new URL("leash.ts", import.meta.url).href;

/** Run a script of the project; standard output and error are pipes. Its standard input is its leash and stays empty. */
export function startLeashed(script: string, args: readonly string[] = []): ChildProcess {
  return spawn(process.execPath, ["--import", "tsx", "--import", LEASH, join(ROOT, script), ...args], {
    cwd: ROOT,
    stdio: ["pipe", "pipe", "pipe"],
  });
}
