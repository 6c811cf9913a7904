// Runs a command of ours in a process of its own: what takes long there does not hold up who is talking to the shop here.
import { spawn } from "node:child_process";
import { constants, setPriority } from "node:os";
import { extname, join } from "node:path";

export interface ChildRun {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Compiled it is JavaScript beside JavaScript, in development TypeScript beside TypeScript, which needs a loader. */
const KIND = extname(import.meta.filename);
const MAIN = join(import.meta.dirname, `../cli/main${KIND}`);
const LOADER = KIND === ".ts" ? ["--import", "tsx"] : [];

/**
 * Run `thoubook ARGS`; ended early by `signal`.
 * @param priority behind everything else on this machine, unless a test says otherwise
 */
export function runCommand(
  args: readonly string[],
  signal: AbortSignal,
  priority: number = constants.priority.PRIORITY_LOW,
): Promise<ChildRun> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [...LOADER, MAIN, ...args], { stdio: ["ignore", "pipe", "pipe"], signal });
    const run = { out: "", err: "" };
    child.stdout?.setEncoding("utf8").on("data", (text: string) => {
      run.out += text;
    });
    child.stderr?.setEncoding("utf8").on("data", (text: string) => {
      run.err += text;
    });
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, ...run }));
    if (child.pid !== undefined) setPriority(child.pid, priority);
  });
}
