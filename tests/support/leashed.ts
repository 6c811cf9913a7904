// Starts code of ours as a child process that cannot outlive the test's process.
import { type ChildProcess, spawn } from "node:child_process";
import { join } from "node:path";

const ROOT = join(import.meta.dirname, "../..");
const LEASH = new URL("leash.mjs", import.meta.url).href;

function start(...args: readonly string[]): ChildProcess {
  return spawn(process.execPath, ["--import", LEASH, ...args], { cwd: ROOT, stdio: ["pipe", "pipe", "pipe"] });
}

/** Run `thoubook` with these arguments, as built; standard output and error are pipes. Its standard input is its leash and stays empty. */
export const startCommand = (args: readonly string[]): ChildProcess => start(join(ROOT, "dist/server/cli/main.js"), ...args);

/** The same for a script of the tests. */
export const startLeashed = (script: string): ChildProcess => start("--import", "tsx", join(ROOT, script));
