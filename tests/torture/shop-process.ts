// The shop's commands as processes that can be killed, and that cannot outlive the process that started them.
import { type ChildProcess, spawn } from "node:child_process";
import { join } from "node:path";

export const ROOT = join(import.meta.dirname, "../..");

/** How a command is started. */
export type Program = readonly string[];
export const BUILT: Program = [join(ROOT, "dist/server/cli/main.js")];

/**
 * Its standard input is its leash: the system closes it when whoever holds the other end ends, however that comes about.
 * Worker threads load this too, and their input closes early.
 */
const LEASH = `import { isMainThread } from "node:worker_threads";
if (isMainThread) process.stdin.on("close", () => process.kill(process.pid, "SIGKILL")).resume().unref?.();`;

export interface Run {
  readonly child: ChildProcess;
  /** What it has written to standard error so far. */
  err(): string;
  readonly ended: Promise<{ readonly code: number | null; readonly out: string; readonly err: string }>;
}

/** Start a command; `before` goes in front of the program, as a tracer does. */
export function start(program: Program, args: readonly string[], before: readonly string[] = []): Run {
  const [command = "", ...rest] = [...before, process.execPath, "--import", `data:text/javascript,${encodeURIComponent(LEASH)}`];
  const child = spawn(command, [...rest, ...program, ...args], { cwd: ROOT, stdio: ["pipe", "pipe", "pipe"] });
  let out = "";
  let err = "";
  child.stdout?.on("data", (chunk) => {
    out += chunk;
  });
  child.stderr?.on("data", (chunk) => {
    err += chunk;
  });
  const ended = new Promise<{ code: number | null; out: string; err: string }>((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, out, err }));
  });
  return { child, err: () => err, ended };
}

export interface Served extends Run {
  /** Resolves to its address when it is open; undefined when it ended before that. */
  readonly open: Promise<string | undefined>;
}

export function serve(program: Program, dir: string, before: readonly string[] = []): Served {
  const run = start(program, ["serve", "--port", "0", "--data", dir, "--log", "error", "--late-ear"], before);
  const open = new Promise<string | undefined>((resolve) => {
    run.child.stderr?.on("data", () => {
      const url = /open at (http:\/\/127\.0\.0\.1:\d+)\//.exec(run.err())?.[1];
      if (url !== undefined) resolve(url);
    });
    void run.ended.then(() => resolve(undefined));
  });
  return { ...run, open };
}

/** Kill outright and wait until it is gone. Gives false where it had ended by itself. */
export async function kill(run: Run): Promise<boolean> {
  const alive = run.child.exitCode === null && run.child.signalCode === null && run.child.kill("SIGKILL");
  await run.ended;
  return alive;
}

export const sleep = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));
