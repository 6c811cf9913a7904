// How long and how hard is tried, and what must hold whatever came in.
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { expect } from "vitest";

/** Seconds for one test; without it a fixed number of tries that takes as long as the other tests. */
const SECONDS = Number(process.env.FUZZ_SECONDS ?? 0);
/** How long a test here may take; it stops by itself before. */
export const PATIENCE_MS = Math.max(600_000, SECONDS * 4000);

/** Seeds of runs that once found something, and one more: each is run every time. */
export const KEPT_SEEDS: readonly number[] = [20260304, 1, 7];

/** What fast-check is told for `tries` tries in all. */
export function bounds(
  tries: number,
): { seed: number; numRuns: number; endOnFailure: boolean; interruptAfterTimeLimit?: number }[] {
  const given = process.env.FUZZ_SEED;
  if (SECONDS > 0) {
    const seed = given === undefined ? Date.now() % 2 ** 31 : Number(given);
    return [{ seed, numRuns: 10_000_000, endOnFailure: true, interruptAfterTimeLimit: SECONDS * 1000 }];
  }
  const seeds = given === undefined ? KEPT_SEEDS : [Number(given)];
  // Not made smaller where it fails: that may take longer than all the rest, and its seed and path bring it back.
  return seeds.map((seed) => ({ seed, endOnFailure: true, numRuns: Math.ceil(tries / seeds.length) }));
}

/** A reader or a request may take this much of the processor: told in its own time, whatever else the machine does. */
const MOST_CPU_MS = 2000;
/** And must not stand still either. */
const MOST_WALL_MS = 60_000;

export const slowest = { what: "", cpu: 0 };

/** Do it within the bounds of time. */
export async function within<T>(what: string, work: () => T | Promise<T>): Promise<T> {
  const before = process.cpuUsage();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(new Error(`${what}: no answer in ${MOST_WALL_MS / 1000} s`)), MOST_WALL_MS);
  });
  try {
    return await Promise.race([work(), late]);
  } finally {
    clearTimeout(timer);
    const { user, system } = process.cpuUsage(before);
    const cpu = (user + system) / 1000;
    if (cpu > slowest.cpu) Object.assign(slowest, { what, cpu });
    expect(cpu, `${what}: milliseconds of the processor`).toBeLessThan(MOST_CPU_MS);
  }
}

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

/** Bytes this process holds on to. */
export function held(): number {
  collect();
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}

/** What tells of the inside: stacks, paths, SQL. None of it is in anything that is sent here. */
const INSIDE = [
  /\n\s+at /,
  /node_modules|node:internal/,
  /\.ts:\d+/,
  /SQLITE_|\bno such (table|column)\b|\bSELECT\b[^"]+\bFROM\b|\bINSERT INTO\b|constraint failed/i,
  new RegExp(process.cwd().replace(/[^\w/]/g, ".")),
  /\/tmp\/thoubook-test/,
];

/** @throws when a text tells of the inside */
export function tellsNothing(what: string, text: string): void {
  for (const pattern of INSIDE) expect(text, what).not.toMatch(pattern);
}
