// What commands write: data to standard output, sentences to standard error, and the exit code for what went wrong.
import { existsSync } from "node:fs";
import { dataPaths } from "../data-dir.ts";
import { PlainError, ServiceError } from "../errors.ts";

export const DONE = 0;
export const FAILED = 1;
export const BAD_ARGUMENTS = 2;

export function printJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
}

export function say(sentence: string): void {
  process.stderr.write(`${sentence}\n`);
}

const PROGRESS_MS = 2000;

/** Says how far a long run has come, every two seconds; a short one says nothing. */
export function progressSayer(command: string): (what: string, done: number, of: number) => void {
  let next = Date.now() + PROGRESS_MS;
  return (what, done, of) => {
    if (Date.now() < next) return;
    next = Date.now() + PROGRESS_MS;
    say(`${command}: ${done} of ${of} ${what}`);
  };
}

/** Run a command's work; what it refuses is said in one sentence and counts as failed. */
export async function orSay(work: () => Promise<number>): Promise<number> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof PlainError || error instanceof ServiceError)) throw error;
    say(error.message);
    return FAILED;
  }
}

/** Whether the folder holds a shop; says so when it does not. */
export function holdsShop(dir: string): boolean {
  const { database, identity } = dataPaths(dir);
  if (existsSync(database) || existsSync(identity)) return true;
  say(`Expected a shop's data in ${dir}, got none there: give its folder with --data`);
  return false;
}
